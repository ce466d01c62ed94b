using System.Globalization;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.ControlPoints;

/// <summary>A control point as a surveyor gives it.</summary>
/// <param name="Name">Name of the mark.</param>
/// <param name="Site">Where the drawings put it: site grid, metres.</param>
/// <param name="Surveyed">Where it was surveyed: projected CRS in metres, or latitude and longitude in degrees.</param>
/// <param name="StandardDeviationMetres">Standard deviation of one coordinate, metres; null where none is given.</param>
public sealed record SurveyedMark(string Name, SiteCoordinate Site, RecordedPosition Surveyed, double? StandardDeviationMetres);

/// <summary>Columns of a list of control points surveyed in either frame of the earth.</summary>
internal sealed class SurveyedMarkLayout : TableLayout
{
    /// <param name="axes">Names of the axes of the site grid.</param>
    public SurveyedMarkLayout(GridAxes axes)
        : base("control points", axes)
    {
        Name = Text("Name", required: true, "Point", "Mark", "Control point");
        Site = Position("", required: true, Frame.SiteGrid);
        Surveyed = Position("", required: true, Frame.ProjectedCrs, Frame.Geographic);
        StandardDeviation = Number("Standard deviation", Quantity.Uncertainty, "Std dev", "Sigma");
    }

    public Column Name { get; }

    public PositionColumns Site { get; }

    public PositionColumns Surveyed { get; }

    public Column StandardDeviation { get; }
}

/// <summary>Reads control points for a new adjustment: site grid, and projected CRS or latitude and longitude.</summary>
public static class SurveyedMarkReader
{
    /// <summary>Reads a list of control points.</summary>
    /// <param name="stream">The list, a text table with a header.</param>
    /// <param name="choices">What to read with.</param>
    /// <param name="cancellation">Ends the reading.</param>
    /// <returns>The marks, and every problem by line.</returns>
    public static TableReading<SurveyedMark> Read(Stream stream, ReadingChoices choices, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(choices);
        var layout = new SurveyedMarkLayout(choices.GridAxes);
        var lines = new Dictionary<string, long>(StringComparer.OrdinalIgnoreCase);
        return TableWalk<SurveyedMark>.Read(stream, choices with { Frame = null }, layout, row => ReadRow(row, layout, lines), cancellation);
    }

    private static SurveyedMark? ReadRow(RowCells row, SurveyedMarkLayout layout, Dictionary<string, long> lines)
    {
        var name = row.Text(layout.Name, 100);
        var site = row.Position(layout.Site);
        var surveyed = row.Position(layout.Surveyed);
        var deviation = row.Number(layout.StandardDeviation);
        row.Require(layout.Name, "the name of the mark");
        if (!row.IsBad && (site is null || surveyed is null))
            row.Problem(layout.Site.Title, "", "the position on the site grid and as surveyed");
        if (name is not null && !lines.TryAdd(name, row.Line))
            row.Problem(layout.Name.Title, name, string.Create(CultureInfo.InvariantCulture, $"each mark once; line {lines[name]} has it already"));
        return row.IsBad || name is null || site is not { } here || surveyed is not { } there
            ? null
            : new SurveyedMark(name, new SiteCoordinate(here.First, here.Second), there, deviation);
    }
}
