using Npgsql;
using SiteProgress.Core.Bias;
using SiteProgress.Jobs.Access;

namespace SiteProgress.Jobs.Deviations;

/// <summary>What the whole record of a site says about noise and bias, with what check measurements say to it.</summary>
/// <param name="SequenceOfRecords">Sequence of the last record all this follows from.</param>
/// <param name="LeastSizeMetres">Nothing smaller than this is named.</param>
/// <param name="Findings">Claims, tests of groups and remarks.</param>
/// <param name="Checks">What check measurements show by barge and casing.</param>
/// <param name="BargeChecks">When each barge was last checked.</param>
public sealed record BiasView(
    long SequenceOfRecords, double LeastSizeMetres, BiasFindings Findings, IReadOnlyList<CheckFinding> Checks, IReadOnlyList<LastCheck> BargeChecks);

/// <summary>When a barge was last checked by an independent measurement.</summary>
/// <param name="Barge">Barge.</param>
/// <param name="LastChecked">Working day; null when never.</param>
/// <param name="DaysSince">Days from there to the barge's last pile; null when never checked.</param>
/// <param name="PilesSince">Piles it built since; all of them when never checked.</param>
public sealed record LastCheck(string Barge, DateOnly? LastChecked, int? DaysSince, int PilesSince);

/// <summary>Reviews the record of a site for bias. It looks at all judged piles, whatever is selected on a page.</summary>
public sealed class ReviewBias(NpgsqlDataSource store)
{
    /// <summary>Reviews the record.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="cancellation">Ends the reading.</param>
    [Needs(Right.See)]
    public async Task<BiasView> RunAsync(Permit permit, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        SiteDeviations site = await SiteDeviations.ReadAsync(store, permit.Site, cancellation);
        return new BiasView(site.Sequence, site.Bias.LeastSizeMetres, site.Findings, site.CheckFindings, LastChecks(site));
    }

    private static LastCheck[] LastChecks(SiteDeviations site)
    {
        ILookup<string, BuiltPile> piles = site.Piles.ToLookup(pile => pile.Barge);
        return piles.Select(barge => barge.Key).Union(site.Settings?.Barges.Select(barge => barge.Name) ?? []).Where(barge => barge.Length > 0).Order(StringComparer.Ordinal)
            .Select(barge =>
            {
                DateTime? last = site.Checks.Where(check => check.Barge == barge).Select(check => (DateTime?)check.At.ToDateTimeUtc()).Max();
                DateOnly? day = site.Checks.Where(check => check.Barge == barge && check.Day is not null).Select(check => (DateOnly?)check.Day!.Value.ToDateOnly()).Max()
                    ?? (last is { } at ? DateOnly.FromDateTime(at) : null);
                DateOnly? built = piles[barge].Max(pile => pile.WorkingDay);
                return new LastCheck(
                    barge, day, day is not null && built is not null ? Math.Max(0, built.Value.DayNumber - day.Value.DayNumber) : null,
                    piles[barge].Count(pile => last is null || pile.EndedAt > last));
            }).ToArray();
    }
}
