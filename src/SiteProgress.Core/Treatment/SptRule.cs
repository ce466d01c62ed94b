using NodaTime;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Deviations;
using SiteProgress.Core.Ground;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Treatment;

/// <summary>
/// The lot rule of SPT N after improvement. A test speaks for a lot when its borehole lies within one spacing of a pile of the
/// lot, on a day after that pile was built, at a level between the pile's as-built tip and top, and an N is reported. N is taken
/// as reported, without a correction for energy or overburden. (Common practice, no source; the contract decides.)
/// </summary>
internal sealed class SptRule(Zone zone, IReadOnlyList<PileJudgement> piles)
{
    private readonly double _reach = 2 * zone.ReachMetres;
    private int _elsewhere, _early, _outside, _withoutN;

    public LotRuleResult Judge(double least, string source, IReadOnlyList<PlacedTest> tests)
    {
        int[] blows = [.. tests.Select(Blows).OfType<int>()];
        Verdict verdict = blows.Length == 0 ? Verdict.NotJudged : AgainstLimit.IsAtLeast(blows.Min(), least) ? Verdict.Met : Verdict.NotMet;
        return new LotRuleResult(
            zone.Code, "SPT N after improvement", verdict, blows.Length == 0 ? null : blows.Min(), least, "blows",
            $"{(blows.Length == 0 ? "No sounding after improvement is on record" : $"Least N of {SheetFigures.Whole(blows.Length)} tests, as reported; >= limit")} ({source}).{NotCounted()}");
    }

    private int? Blows(PlacedTest test)
    {
        if (Nearest(test) is not { } pile) _elsewhere++;
        else if (!IsAfter(test.Test.TestedOn, pile)) _early++;
        else if (!IsWithin(test.LevelMetres, pile)) _outside++;
        else if (test.Test.Blows is not { } blows) _withoutN++;
        else return blows;
        return null;
    }

    private PileJudgement? Nearest(PlacedTest test)
    {
        if (test.At is not { } at) return null;
        PileJudgement nearest = piles.MinBy(pile => pile.Pile.Position.DistanceToMetres(at))!;
        return nearest.Pile.Position.DistanceToMetres(at) <= _reach ? nearest : null;
    }

    // On the day itself a test may have come before the pile, so it does not count as one after it.
    private static bool IsAfter(LocalDate? testedOn, PileJudgement pile)
        => testedOn is { } day && pile.Standing[^1].Installation.Recorded.End is { } end && day > end.InUtc().Date;

    private static bool IsWithin(double? level, PileJudgement pile)
        => level is { } at && pile.AsBuiltTopLevelMetres is { } top && pile.AsBuiltTipLevelMetres is { } tip && at <= top && at >= tip;

    private string NotCounted()
    {
        string[] words = [.. new (int Tests, string Why)[]
        {
            (_elsewhere, "not within a spacing of a pile of the lot"), (_early, "not on a day after their pile was built, or without a day"),
            (_outside, "not between tip and top of their pile, or without a level"), (_withoutN, "without an N"),
        }.Where(one => one.Tests > 0).Select(one => $"{SheetFigures.Whole(one.Tests)} {one.Why}")];
        return words.Length == 0 ? "" : $" Tests that do not count: {string.Join(", ", words)}.";
    }
}
