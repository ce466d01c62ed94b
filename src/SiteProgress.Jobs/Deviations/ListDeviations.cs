using Npgsql;
using SiteProgress.Core.Deviations;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Sites;
using static SiteProgress.Jobs.Sites.RowReading;

namespace SiteProgress.Jobs.Deviations;

/// <summary>Lists built piles with their deviations, sorted and a page at a time.</summary>
public sealed class ListDeviations(NpgsqlDataSource store)
{
    /// <summary>Columns that can be sorted by.</summary>
    public enum Order
    {
        /// <summary>Radial deviation.</summary>
        Radial = 1,

        /// <summary>Deviation as a share of the limit that decides.</summary>
        OfLimit,

        /// <summary>dE.</summary>
        East,

        /// <summary>dN.</summary>
        North,

        /// <summary>Along the first site axis.</summary>
        Along,

        /// <summary>Along the second site axis.</summary>
        Across,

        /// <summary>Pile number.</summary>
        Number,

        /// <summary>Zone.</summary>
        Zone,

        /// <summary>Barge, casing.</summary>
        Barge,

        /// <summary>When the casing left the pile.</summary>
        Day,
    }

    /// <summary>Which rows.</summary>
    /// <param name="Selection">Which piles.</param>
    /// <param name="Position">How they stand to the limit; null for all.</param>
    /// <param name="OrderedBy">Column sorted by.</param>
    /// <param name="Descending">True for the largest first.</param>
    /// <param name="Skip">Rows passed over.</param>
    /// <param name="Take">Rows wanted; null for all.</param>
    public sealed record Request(
        DeviationSelection Selection, PositionChoice? Position = null, Order OrderedBy = Order.Radial, bool Descending = true, int Skip = 0, int? Take = null);

    /// <summary>A page of rows.</summary>
    /// <param name="Total">Rows there are in all.</param>
    /// <param name="Rows">The rows.</param>
    public sealed record Page(int Total, IReadOnlyList<Row> Rows);

    /// <summary>One built pile.</summary>
    /// <param name="Number">Pile number.</param>
    /// <param name="Zone">Zone.</param>
    /// <param name="Barge">Barge that completed it.</param>
    /// <param name="Casing">Casing that completed it.</param>
    /// <param name="SetUp">Set-up from which it was completed.</param>
    /// <param name="WorkingDay">Working day on which it was completed.</param>
    /// <param name="EndedAt">When the casing left it (UTC).</param>
    /// <param name="Attempts">Attempts adopted for it.</param>
    /// <param name="DeviationEastMetres">dE.</param>
    /// <param name="DeviationNorthMetres">dN.</param>
    /// <param name="DeviationAlongMetres">Along the first axis of the site grid.</param>
    /// <param name="DeviationAcrossMetres">Along the second axis of the site grid.</param>
    /// <param name="DeviationRadialMetres">Radial.</param>
    /// <param name="RadialLimitMetres">Radial limit in force.</param>
    /// <param name="UncertaintyMetres">Uncertainty (95 %) of the position.</param>
    /// <param name="IsJudged">True when it is held against the limit.</param>
    public sealed record Row(
        string Number,
        string Zone,
        string? Barge,
        int? Casing,
        string? SetUp,
        DateOnly? WorkingDay,
        DateTime? EndedAt,
        int Attempts,
        double? DeviationEastMetres,
        double? DeviationNorthMetres,
        double? DeviationAlongMetres,
        double? DeviationAcrossMetres,
        double? DeviationRadialMetres,
        double RadialLimitMetres,
        double? UncertaintyMetres,
        bool IsJudged)
    {
        /// <summary>Limit along the first site axis; null where the contract sets none.</summary>
        public double? AlongLimitMetres { get; init; }

        /// <summary>Limit along the second site axis; null where the contract sets none.</summary>
        public double? AcrossLimitMetres { get; init; }

        /// <summary>The deviation as a share of the limit that decides; null without a position.</summary>
        public double? LimitShareRatio { get; init; }

        /// <summary>True within the limits, false beyond, null when not judged: the verdict of the pile's own check.</summary>
        public bool? IsWithinLimit { get; init; }

        /// <summary>True when it is beyond the site's own alert.</summary>
        public bool IsBeyondAlert { get; init; }

        /// <summary>The numbers of the limit that decides; null without a position.</summary>
        public PositionAnswer? Held => DeviationRadialMetres is null
            ? null
            : new PositionLimit(RadialLimitMetres, AlongLimitMetres, AcrossLimitMetres).Hold(new PositionDeviation(DeviationEastMetres!.Value, DeviationNorthMetres!.Value, DeviationAlongMetres!.Value, DeviationAcrossMetres!.Value));

        /// <summary>True when what is compared differs from its limit by no more than the uncertainty.</summary>
        public bool IsNearLimit => IsJudged && Held is { Answer: var held } && Math.Abs(held.Value - held.Limit) <= UncertaintyMetres;
    }

    /// <summary>Lists a page.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="request">Which rows.</param>
    /// <param name="cancellation">Ends the reading.</param>
    [Needs(Right.See)]
    public async Task<Page> RunAsync(Permit permit, Request request, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        ArgumentNullException.ThrowIfNull(request);
        string where = $"from derived.pile where {DeviationSelection.Condition}{Condition(request.Position)}";
        int total = (await store.ReadAsync($"select count(*)::int {where}", row => row.GetInt32(0), cancellation, request.Selection.Values(permit.Site))).Single();
        string direction = request.Descending ? "desc" : "asc";
        string order = string.Join(", ", Columns(request.OrderedBy).Select(column => $"{column} {direction} nulls last"));
        List<Row> rows = await store.ReadAsync(
            $"""
            select number, zone, barge, casing, set_up, working_day, ended_at, attempts, deviation_east, deviation_north, deviation_along, deviation_across,
                deviation_radial, radial_limit, uncertainty, comparable and deviation_radial is not null,
                along_limit, across_limit, limit_share, {PositionNotMet}, {PositionAlert}
            {where} order by {order}, number offset ${DeviationSelection.NextParameter} limit ${DeviationSelection.NextParameter + 1}
            """,
            Read,
            cancellation,
            [.. request.Selection.Values(permit.Site), Whole(Math.Max(0, request.Skip)), Whole(request.Take)]);
        return new Page(total, rows);
    }

    /// <summary>The verdict that stands in the row, made by the one place that judges.</summary>
    private static readonly string PositionNotMet = $"'{CheckName.Position}' = any (string_to_array(findings, ' '))";

    private static readonly string PositionAlert = $"'{CheckName.Position}' = any (string_to_array(alerts, ' '))";

    private static string Condition(PositionChoice? position) => position switch
    {
        null => "",
        PositionChoice.Within => $" and comparable and not {PositionNotMet}",
        PositionChoice.Beyond => $" and comparable and {PositionNotMet}",
        PositionChoice.Alert => $" and comparable and {PositionAlert} and not {PositionNotMet}",
        PositionChoice.NotJudged => " and not (comparable and deviation_radial is not null)",
        _ => throw new ArgumentOutOfRangeException(nameof(position), position, "unknown choice"),
    };

    private static string[] Columns(Order order) => order switch
    {
        Order.Radial => ["deviation_radial"],
        Order.OfLimit => ["limit_share"],
        Order.East => ["deviation_east"],
        Order.North => ["deviation_north"],
        Order.Along => ["deviation_along"],
        Order.Across => ["deviation_across"],
        Order.Number => ["number"],
        Order.Zone => ["zone"],
        Order.Barge => ["barge", "casing"],
        Order.Day => ["ended_at"],
        _ => throw new ArgumentOutOfRangeException(nameof(order), order, "unknown column"),
    };

    private static Row Read(NpgsqlDataReader row) => new(
        row.GetString(0), row.GetString(1), row.TextOrNull(2), row.WholeOrNull(3), row.TextOrNull(4), row.DayOrNull(5), row.MomentOrNull(6), row.GetInt32(7),
        row.NumberOrNull(8), row.NumberOrNull(9), row.NumberOrNull(10), row.NumberOrNull(11), row.NumberOrNull(12), row.GetDouble(13), row.NumberOrNull(14),
        row.GetBoolean(15))
    {
        AlongLimitMetres = row.NumberOrNull(16),
        AcrossLimitMetres = row.NumberOrNull(17),
        LimitShareRatio = row.NumberOrNull(18),
        IsWithinLimit = row.GetBoolean(15) ? !row.GetBoolean(19) : null,
        IsBeyondAlert = row.GetBoolean(20),
    };
}
