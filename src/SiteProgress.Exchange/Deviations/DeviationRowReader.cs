using NodaTime;
using SiteProgress.Core.Bias;
using SiteProgress.Core.Deviations;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.Deviations;

/// <summary>Columns of an outside table of deviations.</summary>
internal sealed class DeviationRowLayout : TableLayout
{
    /// <param name="axes">Names of the axes of the grid.</param>
    public DeviationRowLayout(GridAxes axes)
        : base("deviations", axes)
    {
        PileNumber = NameOf("Pile No", required: true, PileNames.Usual, []);
        Barge = Text("Barge", required: true, "Vessel", "Rig", "Pontoon", "Unit", "Plant");
        Casing = Text("Casing", required: false, "Casing No", "Casing Nr");
        SetUp = Text("Set-up", required: false, "Set-up No", "Set-up Nr", "Barge position");
        Zone = Text("Zone", required: false, "Area");
        End = Time("End", required: false, "End time", "End (UTC)", "Finish");
        Heading = Number("Heading grid", Quantity.Heading, "Grid heading");
        East = Number("dE", Quantity.SiteCoordinate, "Deviation east", "Delta E");
        North = Number("dN", Quantity.SiteCoordinate, "Deviation north", "Delta N");
        Design = Position("design", required: false, Frame.SiteGrid, Frame.ProjectedCrs);
        AsBuilt = Position("as built", required: false, Frame.SiteGrid, Frame.ProjectedCrs);
        Limit = Number("Radial limit", Quantity.Length, "Limit", "Tolerance");
    }

    public Column PileNumber { get; }

    public Column Barge { get; }

    public Column Casing { get; }

    public Column SetUp { get; }

    public Column Zone { get; }

    public Column End { get; }

    public Column Heading { get; }

    public Column East { get; }

    public Column North { get; }

    public PositionColumns Design { get; }

    public PositionColumns AsBuilt { get; }

    public Column Limit { get; }
}

/// <summary>Reads an outside table of deviations, or of design and as-built positions, for a review without a site.</summary>
public static class DeviationRowReader
{
    /// <summary>Reads deviations. Positions and headings are taken on one grid, whichever it is.</summary>
    /// <param name="stream">The file.</param>
    /// <param name="choices">What to read with; barges may have any name.</param>
    /// <param name="limitMetres">Radial limit of rows that name none, metres; null where every row must.</param>
    /// <param name="cancellation">Ends the reading.</param>
    public static TableReading<BiasPile> Read(Stream stream, ReadingChoices choices, double? limitMetres, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(choices);
        var layout = new DeviationRowLayout(choices.GridAxes);
        DateTimeZone zone = DateTimeZoneProviders.Tzdb[choices.TimeZone];
        Dictionary<double, PositionLimit> limits = [];
        PositionLimit Limit(double metres) => limits.TryGetValue(metres, out PositionLimit? known) ? known : limits[metres] = new PositionLimit(metres);
        return TableWalk<BiasPile>.Read(stream, choices, layout, row => ReadRow(row, layout, zone, limitMetres, Limit), cancellation);
    }

    private static BiasPile? ReadRow(RowCells row, DeviationRowLayout layout, DateTimeZone zone, double? limitMetres, Func<double, PositionLimit> limits)
    {
        var number = row.Text(layout.PileNumber, 60);
        var barge = row.Text(layout.Barge, 60);
        var casing = row.Whole(layout.Casing, 1, 99);
        var setUp = row.Text(layout.SetUp, 60);
        var area = row.Text(layout.Zone, 60);
        var end = row.Time(layout.End);
        var heading = row.Number(layout.Heading);
        var (east, north) = (row.Number(layout.East), row.Number(layout.North));
        var (design, built) = (row.Position(layout.Design), row.Position(layout.AsBuilt));
        var limit = row.Number(layout.Limit) ?? limitMetres;
        row.Require(layout.PileNumber, "a pile number");
        row.Require(layout.Barge, "the barge or rig");
        if (limit is null) row.Require(layout.Limit, "a limit in the row, or one for all rows on the command line");
        if (!row.IsBad && (east is null || north is null) && (design is null || built is null))
            row.Problem(layout.East.Title, "", "dE and dN, or the design and the as-built position");
        if (row.IsBad || number is null || barge is null || limit is not { } allowed) return null;
        var (dE, dN) = (east ?? (built!.Value.First - design!.Value.First), north ?? (built!.Value.Second - design!.Value.Second));
        return new BiasPile(
            number, barge, casing, setUp, area, end, end?.InZone(zone).Date, heading, design?.First ?? 0, design?.Second ?? 0, dE, dN, dE, dN, limits(allowed));
    }
}
