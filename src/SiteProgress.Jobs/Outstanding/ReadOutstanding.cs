using Npgsql;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Outstanding;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Sites;
using static SiteProgress.Jobs.Sites.RowReading;

namespace SiteProgress.Jobs.Outstanding;

/// <summary>Reads what is left to build: by zone, pile by pile, and what needs a look before the barge has gone.</summary>
public sealed class ReadOutstanding(NpgsqlDataSource store)
{
    /// <summary>Columns that can be sorted by.</summary>
    public enum Order
    {
        /// <summary>Pile number.</summary>
        Number = 1,

        /// <summary>Zone.</summary>
        Zone,

        /// <summary>Design position, first site axis.</summary>
        X,

        /// <summary>Design position, second site axis.</summary>
        Y,

        /// <summary>Design length.</summary>
        Length,

        /// <summary>Attempts.</summary>
        Attempts,
    }

    /// <summary>Which rows of the list.</summary>
    /// <param name="Zone">Zone; null for all.</param>
    /// <param name="Kind">Why a pile is listed apart; null for all.</param>
    /// <param name="OrderedBy">Column sorted by.</param>
    /// <param name="Descending">True for the largest first.</param>
    /// <param name="Skip">Rows passed over.</param>
    /// <param name="Take">Rows wanted; null for all.</param>
    public sealed record Request(
        string? Zone = null, OutstandingKind? Kind = null, Order OrderedBy = Order.Number, bool Descending = false, int Skip = 0, int? Take = null);

    /// <summary>Reads what is left.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="request">Which rows of the list; the rest is always of the whole site.</param>
    /// <param name="cancellation">Ends the reading.</param>
    /// <returns>What is left; null before the site has settings.</returns>
    [Needs(Right.See)]
    public async Task<OutstandingView?> RunAsync(Permit permit, Request request, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        ArgumentNullException.ThrowIfNull(request);
        if (await StoredSettings.ReadAsync(store, permit.Site, cancellation) is not { } settings) return null;
        List<Planned> planned = await PlannedAsync(permit.Site, cancellation);
        List<WaitingRecord> waiting = await WaitingAsync(permit.Site, cancellation);
        HashSet<string> mayBe = new(waiting.SelectMany(MayBe), StringComparer.OrdinalIgnoreCase);
        PlaceInPattern[] places = planned.Select(pile => new PlaceInPattern(
            pile.Number, pile.Zone, new SiteCoordinate(pile.X, pile.Y), !pile.IsLeft, pile.IsLeft && pile.Attempts == 0 && !mayBe.Contains(pile.Number))).ToArray();
        Dictionary<string, Gap> gaps = GapsInFinishedBlocks.Find(places, settings.Zones).ToDictionary(gap => gap.Number);
        IReadOnlySet<string> rows = UnfinishedRows.Find(places, settings.Zones);
        OutstandingPile[] left = planned.Where(pile => pile.IsLeft)
            .Select(pile => pile.ToOutstanding(rows.Contains(pile.Number) ? null : gaps.GetValueOrDefault(pile.Number), rows.Contains(pile.Number), mayBe.Contains(pile.Number))).ToArray();
        OutstandingPile[] listed = Sorted(left.Where(pile => IsAskedFor(pile, request)), request).ToArray();
        return new OutstandingView(
            await SequenceAsync(permit.Site, cancellation),
            settings.TimeZone,
            ByZone(planned, left, settings),
            left.Where(pile => pile.Kind == OutstandingKind.Gap).ToArray(),
            left.Where(pile => pile.Kind == OutstandingKind.Attempted).ToArray(),
            waiting,
            listed.Length,
            listed.Skip(Math.Max(0, request.Skip)).Take(request.Take ?? listed.Length).ToArray());
    }

    private static IEnumerable<string> MayBe(WaitingRecord record) => record.Nearest is { } nearest ? [record.RecordedNumber.Trim(), nearest] : [record.RecordedNumber.Trim()];

    private static bool IsAskedFor(OutstandingPile pile, Request request)
        => (request.Zone is null || string.Equals(pile.Zone, request.Zone, StringComparison.OrdinalIgnoreCase))
            && (request.Kind is null || pile.Kind == request.Kind);

    private static IEnumerable<OutstandingPile> Sorted(IEnumerable<OutstandingPile> piles, Request request)
    {
        IEnumerable<OutstandingPile> ascending = request.OrderedBy switch
        {
            Order.Number => piles.OrderBy(pile => pile.Number, StringComparer.Ordinal),
            Order.Zone => piles.OrderBy(pile => pile.Zone, StringComparer.Ordinal).ThenBy(pile => pile.Number, StringComparer.Ordinal),
            Order.X => piles.OrderBy(pile => pile.XMetres).ThenBy(pile => pile.Number, StringComparer.Ordinal),
            Order.Y => piles.OrderBy(pile => pile.YMetres).ThenBy(pile => pile.Number, StringComparer.Ordinal),
            Order.Length => piles.OrderBy(pile => pile.DesignLengthMetres).ThenBy(pile => pile.Number, StringComparer.Ordinal),
            Order.Attempts => piles.OrderBy(pile => pile.Attempts).ThenBy(pile => pile.Number, StringComparer.Ordinal),
            _ => throw new ArgumentOutOfRangeException(nameof(request), request.OrderedBy, "unknown column"),
        };
        return request.Descending ? ascending.Reverse() : ascending;
    }

    private static ZoneLeft[] ByZone(List<Planned> planned, OutstandingPile[] left, SiteSettings settings)
    {
        ILookup<string, OutstandingPile> byZone = left.ToLookup(pile => pile.Zone);
        return planned.GroupBy(pile => pile.Zone).OrderBy(group => group.Key, StringComparer.Ordinal).Select(group =>
        {
            OutstandingPile[] ofZone = byZone[group.Key].ToArray();
            return new ZoneLeft(
                group.Key,
                settings.FindZone(group.Key)?.Name ?? "",
                group.Count(),
                ofZone.Length,
                ofZone.Sum(pile => pile.DesignLengthMetres ?? 0),
                ofZone.Count(pile => pile.IsLeastLength),
                ofZone.Count(pile => pile.Kind == OutstandingKind.Gap),
                ofZone.Count(pile => pile.Kind == OutstandingKind.Attempted),
                ofZone.Count(pile => pile.Kind == OutstandingKind.AwaitingDecision),
                ofZone.Count(pile => pile.Kind == OutstandingKind.UnfinishedRow));
        }).ToArray();
    }

    private Task<List<Planned>> PlannedAsync(int site, CancellationToken cancellation)
        => store.ReadAsync(
            $"""
            select number, zone, state, design_x, design_y, design_top, design_tip, least_length, attempts, remark, held_by
            from derived.pile where site = $1 and state <> {(int)PileState.Cancelled} order by number collate "C"
            """,
            row => new Planned(
                row.GetString(0), row.GetString(1), (PileState)row.GetInt16(2), row.GetDouble(3), row.GetDouble(4), row.GetDouble(5), row.NumberOrNull(6),
                row.NumberOrNull(7), row.GetInt32(8), row.TextOrNull(9), row.WholeOrNull(10)),
            cancellation,
            Site(site));

    private Task<List<WaitingRecord>> WaitingAsync(int site, CancellationToken cancellation)
        => store.ReadAsync(
            """
            select i.sequence, i.record_id, i.match, i.recorded_number, p.number is not null, i.nearest, i.distance_to_named, i.distance_to_nearest,
                i.barge, i.casing, i.working_day
            from derived.installation i left join derived.pile p on p.site = i.site and p.number = trim(i.recorded_number)
            where i.site = $1 and i.waits_for_decision order by i.match, i.working_day, i.sequence
            """,
            row => new WaitingRecord(
                row.GetInt64(0), row.TextOrNull(1), (MatchOutcome)row.GetInt16(2), row.GetString(3), row.GetBoolean(4), row.TextOrNull(5), row.NumberOrNull(6),
                row.NumberOrNull(7), row.GetString(8), row.WholeOrNull(9), row.DayOrNull(10)),
            cancellation,
            Site(site));

    private async Task<long> SequenceAsync(int site, CancellationToken cancellation)
        => (await store.ReadAsync("select sequence from derived.site_state where site = $1", row => row.GetInt64(0), cancellation, Site(site)))
            .SingleOrDefault();

    private sealed record Planned(
        string Number, string Zone, PileState State, double X, double Y, double Top, double? Tip, double? LeastLength, int Attempts, string? Remark, int? HeldBy)
    {
        public bool IsLeft => State is PileState.Outstanding or PileState.BuildAgain;

        public OutstandingPile ToOutstanding(Gap? gap, bool inUnfinishedRow, bool awaits) => new(
            Number,
            Zone,
            State,
            KindOf(gap, inUnfinishedRow, awaits),
            X,
            Y,
            Top,
            Tip,
            Top - Tip ?? LeastLength,
            Tip is null,
            Attempts,
            gap?.Neighbours,
            gap?.BuiltNeighbours,
            Remark) { HeldBy = HeldBy };

        private OutstandingKind KindOf(Gap? gap, bool inUnfinishedRow, bool awaits)
        {
            if (awaits) return OutstandingKind.AwaitingDecision;
            if (Attempts > 0) return OutstandingKind.Attempted;
            if (inUnfinishedRow) return OutstandingKind.UnfinishedRow;
            return gap is not null ? OutstandingKind.Gap : OutstandingKind.NotAttempted;
        }
    }
}
