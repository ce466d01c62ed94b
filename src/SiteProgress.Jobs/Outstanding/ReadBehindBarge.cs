using Npgsql;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Sites;
using static SiteProgress.Jobs.Sites.RowReading;

namespace SiteProgress.Jobs.Outstanding;

/// <summary>
/// What is left within reach of where a barge lies, before its anchors lift: piles not built, piles that wait for a decision, gaps, and
/// built piles with a finding nobody has decided yet.
/// </summary>
public sealed class ReadBehindBarge(NpgsqlDataSource store, ReadOutstanding readOutstanding)
{
    /// <summary>Largest reach asked for, metres.</summary>
    public static double MostReachMetres => 500;

    /// <summary>What is left about a barge.</summary>
    /// <param name="SequenceOfRecords">Sequence of the last record it follows from.</param>
    /// <param name="TimeZone">IANA time zone of the site.</param>
    /// <param name="Barges">Barges of the site.</param>
    /// <param name="Barge">Barge.</param>
    /// <param name="ReachMetres">Reach.</param>
    /// <param name="Place">Where its casing was last; null where it has built nothing that names a pile.</param>
    /// <param name="Left">Outstanding piles within reach: gaps, unfinished rows and awaited ones first, then the nearest.</param>
    /// <param name="Undecided">Built piles within reach with a finding or under treatment, the nearest first.</param>
    /// <param name="Built">Piles within reach that stand.</param>
    public sealed record Answer(
        long SequenceOfRecords,
        string TimeZone,
        IReadOnlyList<string> Barges,
        string Barge,
        double ReachMetres,
        LastPlace? Place,
        IReadOnlyList<LeftNear> Left,
        IReadOnlyList<UndecidedNear> Undecided,
        int Built);

    /// <summary>Where a casing was last.</summary>
    /// <param name="XMetres">First site axis.</param>
    /// <param name="YMetres">Second site axis.</param>
    /// <param name="Pile">Pile it built there.</param>
    /// <param name="SetUp">Set-up.</param>
    /// <param name="EndedAt">When it left the pile (UTC).</param>
    public sealed record LastPlace(double XMetres, double YMetres, string Pile, string? SetUp, DateTime EndedAt);

    /// <summary>An outstanding pile near the barge.</summary>
    /// <param name="Number">Pile number.</param>
    /// <param name="Zone">Zone.</param>
    /// <param name="Kind">Why it is listed.</param>
    /// <param name="DistanceMetres">Distance from the last place of a casing.</param>
    /// <param name="IsIsolated">True where no other outstanding pile lies within one and a half spacings: it takes a set-up alone.</param>
    public sealed record LeftNear(string Number, string Zone, OutstandingKind Kind, double DistanceMetres, bool IsIsolated);

    /// <summary>A built pile near the barge that nobody has decided.</summary>
    /// <param name="Number">Pile number.</param>
    /// <param name="Zone">Zone.</param>
    /// <param name="State">Its state.</param>
    /// <param name="Findings">Checks not met, as words.</param>
    /// <param name="DistanceMetres">Distance from the last place of a casing.</param>
    public sealed record UndecidedNear(string Number, string Zone, PileState State, string Findings, double DistanceMetres);

    /// <summary>Reads what is left.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="barge">Barge; null for the one that built last.</param>
    /// <param name="reachMetres">Reach; null for 60 m.</param>
    /// <param name="cancellation">Ends the reading.</param>
    /// <returns>The answer; null where the site has no settings, no barge, or not this one.</returns>
    [Needs(Right.See)]
    public async Task<Answer?> RunAsync(Permit permit, string? barge, double? reachMetres, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        if (await StoredSettings.ReadAsync(store, permit.Site, cancellation) is not { Barges.Count: > 0 } settings) return null;
        double reach = Math.Clamp(reachMetres ?? 60, 1, MostReachMetres);
        var places = await store.ReadAsync(
            """
            select distinct on (barge) barge, coalesce(deepest_x, touch_down_x), coalesce(deepest_y, touch_down_y), adopted, set_up, ended_at
            from derived.installation where site = $1 and adopted is not null and ended_at is not null and coalesce(deepest_x, touch_down_x) is not null
            order by barge, ended_at desc, sequence desc
            """,
            row => (Barge: row.GetString(0), Place: new LastPlace(row.GetDouble(1), row.GetDouble(2), row.GetString(3), row.TextOrNull(4), row.GetDateTime(5))),
            cancellation, Site(permit.Site));
        string? asked = string.IsNullOrEmpty(barge) ? places.OrderByDescending(one => one.Place.EndedAt).Select(one => one.Barge).FirstOrDefault() ?? settings.Barges[0].Name : settings.FindBarge(barge)?.Name;
        if (asked is null) return null;
        LastPlace? place = places.FirstOrDefault(one => one.Barge == asked).Place;
        OutstandingView view = (await readOutstanding.RunAsync(permit, new ReadOutstanding.Request(), cancellation))!;
        OutstandingPile[] near = place is null ? [] : view.Rows.Where(pile => Distance(pile, place) <= reach).ToArray();
        LeftNear[] left = near
            .Select(pile => new LeftNear(pile.Number, pile.Zone, pile.Kind, Distance(pile, place!), IsIsolated(pile, view.Rows, settings)))
            .OrderBy(pile => pile.Kind switch { OutstandingKind.Gap => 0, OutstandingKind.UnfinishedRow => 1, OutstandingKind.AwaitingDecision => 2, OutstandingKind.Attempted => 3, _ => 4 }).ThenBy(pile => pile.DistanceMetres).ToArray();
        var built = place is null ? [] : await BuiltAsync(permit.Site, place, reach, cancellation);
        return new Answer(
            view.SequenceOfRecords, view.TimeZone, settings.Barges.Select(one => one.Name).ToArray(), asked, reach, place, left,
            built.Where(one => one.State is PileState.Finding or PileState.NonConformance).ToArray(), built.Count);
    }

    private Task<List<UndecidedNear>> BuiltAsync(int site, LastPlace place, double reach, CancellationToken cancellation)
        => store.ReadAsync(
            $"""
            select number, zone, state, findings, sqrt((design_x - $2) ^ 2 + (design_y - $3) ^ 2) as distance from derived.pile
            where site = $1 and state not in ({(int)PileState.Outstanding}, {(int)PileState.BuildAgain}, {(int)PileState.Cancelled}) and sqrt((design_x - $2) ^ 2 + (design_y - $3) ^ 2) <= $4
            order by distance, number
            """,
            row => new UndecidedNear(row.GetString(0), row.GetString(1), (PileState)row.GetInt16(2), row.GetString(3), row.GetDouble(4)),
            cancellation,
            Site(site), Value(place.XMetres, NpgsqlTypes.NpgsqlDbType.Double), Value(place.YMetres, NpgsqlTypes.NpgsqlDbType.Double), Value(reach, NpgsqlTypes.NpgsqlDbType.Double));

    private static bool IsIsolated(OutstandingPile pile, IReadOnlyList<OutstandingPile> all, SiteSettings settings)
    {
        double reach = 1.5 * Math.Max(settings.FindZone(pile.Zone)?.SpacingMetres ?? 0, settings.FindZone(pile.Zone)?.SecondSpacingMetres ?? 0);
        return !all.Any(other => !ReferenceEquals(other, pile) && Math.Abs(other.XMetres - pile.XMetres) <= reach && Math.Abs(other.YMetres - pile.YMetres) <= reach);
    }

    private static double Distance(OutstandingPile pile, LastPlace place)
        => Math.Sqrt(((pile.XMetres - place.XMetres) * (pile.XMetres - place.XMetres)) + ((pile.YMetres - place.YMetres) * (pile.YMetres - place.YMetres)));
}
