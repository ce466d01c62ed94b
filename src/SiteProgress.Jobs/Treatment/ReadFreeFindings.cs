using NodaTime;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Treatment;

/// <summary>Findings that are in no non-conformance, narrowed by what they have in common: they are gathered by their cause.</summary>
public sealed class ReadFreeFindings(SiteHistories histories)
{
    /// <summary>Most findings offered to be gathered at once.</summary>
    public static readonly int MostFindings = 200;

    /// <summary>Which findings. What is left out is any.</summary>
    /// <param name="Piles">Piles; all where there are none.</param>
    /// <param name="Zone">Zone of the pile.</param>
    /// <param name="Check">The check that is not met.</param>
    /// <param name="Barge">Barge that completed the pile.</param>
    /// <param name="Day">Working day on which the pile was completed; of a sand account, its last.</param>
    public sealed record Filter(IReadOnlyList<string> Piles, string? Zone = null, CheckName? Check = null, string? Barge = null, LocalDate? Day = null)
    {
        /// <summary>Every finding.</summary>
        public static Filter All { get; } = new([]);
    }

    /// <summary>Findings that are in no non-conformance.</summary>
    /// <param name="Piles">How many piles have such findings under the filter.</param>
    /// <param name="Total">How many such findings there are under the filter.</param>
    /// <param name="Findings">The first of them, by pile.</param>
    /// <param name="Zones">Zones that have any, under the rest of the filter.</param>
    /// <param name="Checks">Checks that are not met, under the rest of the filter.</param>
    /// <param name="Barges">Barges with such piles, under the rest of the filter.</param>
    /// <param name="Days">Working days of such piles, the newest first, under the rest of the filter.</param>
    /// <param name="RecordSequence">The last record this follows from.</param>
    public sealed record Answer(
        int Piles,
        int Total,
        IReadOnlyList<FindingShown> Findings,
        IReadOnlyList<Choice<string>> Zones,
        IReadOnlyList<Choice<CheckName>> Checks,
        IReadOnlyList<Choice<string>> Barges,
        IReadOnlyList<Choice<LocalDate>> Days,
        long RecordSequence)
    {
        /// <summary>How many of them are of sand accounts.</summary>
        public int Accounts { get; init; }
    }

    /// <summary>Something to narrow by.</summary>
    /// <typeparam name="T">What it is.</typeparam>
    /// <param name="Value">What.</param>
    /// <param name="Findings">How many findings it leaves.</param>
    public sealed record Choice<T>(T Value, int Findings);

    /// <summary>Reads them.</summary>
    [Needs(Right.See)]
    public async Task<Answer> RunAsync(Permit permit, Filter filter, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        DerivedSite site = await histories.ReadDerivedAsync(permit.Site, cancellation);
        HashSet<string> wanted = new(filter.Piles, StringComparer.OrdinalIgnoreCase);
        Finding[] all =
        [
            .. wanted.Count == 0 ? OfAccounts(site) : [],
            .. site.Piles.Where(pile => wanted.Count == 0 || wanted.Contains(pile.Judgement.Pile.Number)).SelectMany(pile => Of(pile, site)),
        ];
        Finding[] found = [.. all.Where(one => one.Fits(filter))];
        return new Answer(
            found.Where(one => one.Shown.Account is null).Select(one => one.Shown.Pile).Distinct().Count(),
            found.Length,
            [.. found.Take(MostFindings).Select(one => one.Shown)],
            [.. Choices(all, filter with { Zone = null }, one => one.Zone).Where(one => one.Value.Length > 0)],
            Choices(all, filter with { Check = null }, one => one.Shown.Check),
            [.. Choices(all, filter with { Barge = null }, one => one.Barge).Where(one => one.Value.Length > 0)],
            [.. Choices(all, filter with { Day = null }, one => one.Day).Reverse()],
            site.History.Sequence)
        {
            Accounts = found.Count(one => one.Shown.Account is not null),
        };
    }

    /// <summary>Sand accounts over the limit, by the working day on which their closing stock was measured the morning after.</summary>
    private static IEnumerable<Finding> OfAccounts(DerivedSite site)
        => site.History.Settings is not { } settings ? [] : site.Treated.FreeAccountFindings().Select(shown => new Finding(
            shown, "", shown.Account!.Barge, new WorkingDays(settings).At(shown.Account.To).Day.PlusDays(-1)));

    private static IEnumerable<Finding> Of(DerivedPile pile, DerivedSite site)
        => site.Treated.FreeFindings(pile.Judgement.Pile.Number).Select(shown => new Finding(
            shown, pile.Judgement.Pile.Zone, pile.Judgement.Standing is [.., var last] ? last.Installation.Recorded.Barge : "", pile.Completed?.Day ?? default));

    private static Choice<T>[] Choices<T>(Finding[] all, Filter filter, Func<Finding, T> of)
        => [.. all.Where(one => one.Fits(filter)).GroupBy(of).OrderBy(group => group.Key).Select(group => new Choice<T>(group.Key, group.Count()))];

    private sealed record Finding(FindingShown Shown, string Zone, string Barge, LocalDate Day)
    {
        public bool Fits(Filter filter)
            => (filter.Zone is not { } zone || Same(zone, Zone))
                && (filter.Check is not { } check || check == Shown.Check)
                && (filter.Barge is not { } barge || Same(barge, Barge))
                && (filter.Day is not { } day || day == Day);

        private static bool Same(string one, string other) => string.Equals(one, other, StringComparison.OrdinalIgnoreCase);
    }
}
