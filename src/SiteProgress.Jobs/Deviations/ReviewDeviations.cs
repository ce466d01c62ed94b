using Npgsql;
using SiteProgress.Core.Deviations;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Sites;
using static SiteProgress.Jobs.Sites.RowReading;

namespace SiteProgress.Jobs.Deviations;

/// <summary>Reads what a selection of built piles shows about where they went: figures, by casing, by day, point by point.</summary>
public sealed class ReviewDeviations(NpgsqlDataSource store)
{
    /// <summary>Reads the review.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="selection">Which piles.</param>
    /// <param name="cancellation">Ends the reading.</param>
    [Needs(Right.See)]
    public async Task<DeviationReview> RunAsync(Permit permit, DeviationSelection selection, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        ArgumentNullException.ThrowIfNull(selection);
        List<BuiltPile> piles = await store.ReadAsync(
            $"""
            select number, barge, casing, set_up, working_day, comparable, radial_limit, deviation_east, deviation_north, deviation_along, deviation_across
            from derived.pile where {DeviationSelection.Condition} order by number collate "C"
            """,
            BuiltPile.Read,
            cancellation,
            selection.Values(permit.Site));
        (long sequence, string? timeZone) = await StateAsync(permit.Site, cancellation);
        BuiltPile[] judged = piles.Where(pile => pile.IsJudged).ToArray();
        return new DeviationReview(
            selection,
            sequence,
            timeZone,
            DeviationFigures.Of(Array.ConvertAll(judged, pile => pile.Judged)),
            piles.Count - judged.Length,
            piles.GroupBy(pile => (pile.Barge, pile.Casing)).OrderBy(group => group.Key.Barge, StringComparer.Ordinal).ThenBy(group => group.Key.Casing)
                .Select(group => ByCasing(group.Key.Barge, group.Key.Casing, group.ToArray())).ToArray(),
            judged.Where(pile => pile.WorkingDay is not null).GroupBy(pile => (pile.Barge, pile.Casing, pile.WorkingDay!.Value))
                .OrderBy(group => group.Key.Barge, StringComparer.Ordinal).ThenBy(group => group.Key.Casing).ThenBy(group => group.Key.Value)
                .Select(group => new CasingDay(
                    group.Key.Barge, group.Key.Casing, group.Key.Value, group.Count(),
                    group.Average(pile => pile.Deviation!.Value.EastMetres), group.Average(pile => pile.Deviation!.Value.NorthMetres))).ToArray(),
            judged.Select(pile => pile.LimitMetres).Distinct().Order().ToArray(),
            piles.Where(pile => pile.Deviation is not null).Select(pile => pile.Point).ToArray(),
            await ChoicesAsync(permit.Site, cancellation));
    }

    private static CasingDeviation ByCasing(string barge, int? casing, BuiltPile[] piles)
    {
        BuiltPile[] judged = Array.FindAll(piles, pile => pile.IsJudged);
        return new CasingDeviation(
            barge,
            casing,
            judged.Select(pile => pile.SetUp).Where(setUp => setUp is not null).Distinct().Count(),
            piles.Length - judged.Length,
            DeviationFigures.Of(Array.ConvertAll(judged, pile => pile.Judged)));
    }

    private async Task<(long Sequence, string? TimeZone)> StateAsync(int site, CancellationToken cancellation)
        => (await store.ReadAsync(
            "select sequence, settings->>'timeZone' from derived.site_state where site = $1",
            row => (row.GetInt64(0), row.TextOrNull(1)),
            cancellation,
            Site(site))).SingleOrDefault();

    private async Task<ReviewChoices> ChoicesAsync(int site, CancellationToken cancellation)
        => (await store.ReadAsync(
            $"""
            select coalesce(array_agg(distinct zone order by zone), array[]::text[]), coalesce(array_agg(distinct barge order by barge) filter (where barge is not null), array[]::text[]),
                coalesce(array_agg(distinct casing order by casing) filter (where casing is not null), array[]::int[]), min(working_day), max(working_day)
            from derived.pile where site = $1 and state not in ({(int)PileState.Outstanding}, {(int)PileState.BuildAgain}, {(int)PileState.Cancelled})
            """,
            row => new ReviewChoices(
                row.GetFieldValue<string[]>(0), row.GetFieldValue<string[]>(1), row.GetFieldValue<int[]>(2), row.DayOrNull(3), row.DayOrNull(4)),
            cancellation,
            Site(site))).Single();

    private sealed record BuiltPile(
        string Number, string Barge, int? Casing, string? SetUp, DateOnly? WorkingDay, bool Comparable, double LimitMetres, PositionDeviation? Deviation)
    {
        public bool IsJudged => Comparable && Deviation is not null;

        public JudgedDeviation Judged => new(Deviation!.Value, LimitMetres);

        public DeviationPoint Point => new(
            Number, Deviation!.Value.EastMetres, Deviation.Value.NorthMetres, Deviation.Value.RadialMetres, LimitMetres, IsJudged);

        public static BuiltPile Read(NpgsqlDataReader row) => new(
            row.GetString(0),
            row.TextOrNull(1) ?? "",
            row.WholeOrNull(2),
            row.TextOrNull(3),
            row.DayOrNull(4),
            row.GetBoolean(5),
            row.GetDouble(6),
            row.NumberOrNull(7) is { } east && row.NumberOrNull(8) is { } north && row.NumberOrNull(9) is { } along && row.NumberOrNull(10) is { } across
                ? new PositionDeviation(east, north, along, across)
                : null);
    }
}
