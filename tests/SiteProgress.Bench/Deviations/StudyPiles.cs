using NodaTime;
using SiteProgress.Core.Bias;
using SiteProgress.Core.Deviations;
using SiteProgress.DemoGenerator.BiasStudy;

namespace SiteProgress.Bench.Deviations;

/// <summary>Generated sites as the product takes them.</summary>
internal static class StudyPiles
{
    private static readonly LocalDate FirstDay = new(2026, 3, 2);

    /// <summary>What a site of the study is.</summary>
    public static BiasSite Site { get; } = new(
        [.. StudySite.Arms.Select(arm => new CasingArm(arm.Barge, arm.Casing, arm.Forward, arm.Starboard))], 0.5, BiasSite.UsualLeastSizeMetres);

    /// <summary>The piles, judged by the same deviation.</summary>
    private static readonly PositionLimit Limit = new(0.15);

    public static BiasPile[] Of(IReadOnlyList<StudyPile> piles) => [.. piles.Select(pile => new BiasPile(
        pile.Number, pile.Barge, pile.Casing, pile.SetUp, null, FirstDay.PlusDays(pile.Day).AtMidnight().PlusMinutes(pile.Minute).InUtc().ToInstant(), FirstDay.PlusDays(pile.Day),
        pile.Heading, pile.East, pile.North, pile.DeviationEast, pile.DeviationNorth, pile.DeviationEast, pile.DeviationNorth, Limit))];

    /// <summary>Number of a working day of the study.</summary>
    public static int DayOf(LocalDate day) => Period.DaysBetween(FirstDay, day);
}
