using System.Globalization;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.ControlPoints;

/// <summary>Columns of a file of control points.</summary>
internal sealed class ControlPointLayout : TableLayout
{
    /// <param name="axes">Names of the axes of the site grid.</param>
    public ControlPointLayout(GridAxes axes)
        : base("control points", axes)
    {
        Name = Text("Name", required: true, "Point", "Mark", "Control point");
        Site = Position("", required: true, Frame.SiteGrid);
        Projected = Position("", required: true, Frame.ProjectedCrs);
        StandardDeviation = Number("Standard deviation", Quantity.Uncertainty, "Std dev");
    }

    public Column Name { get; }

    public PositionColumns Site { get; }

    public PositionColumns Projected { get; }

    public Column StandardDeviation { get; }
}

/// <summary>Reads control points from a text table.</summary>
public static class ControlPointReader
{
    /// <summary>Reads control points: name, position in both frames, standard deviation of each coordinate in metres.</summary>
    /// <param name="stream">The file.</param>
    /// <param name="choices">What to read with; the frame is not chosen, since the file holds both.</param>
    /// <param name="cancellation">Ends the reading.</param>
    /// <returns>Control points, and every problem by line.</returns>
    /// <exception cref="OperationCanceledException">The reading was ended.</exception>
    public static TableReading<ControlPoint> Read(Stream stream, ReadingChoices choices, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(choices);
        var layout = new ControlPointLayout(choices.GridAxes);
        var lines = new Dictionary<string, long>(StringComparer.OrdinalIgnoreCase);
        return TableWalk<ControlPoint>.Read(
            stream, choices with { Frame = null }, layout, row => ReadRow(row, layout, lines), cancellation);
    }

    private static ControlPoint? ReadRow(RowCells row, ControlPointLayout layout, Dictionary<string, long> lines)
    {
        var name = row.Text(layout.Name, 100);
        var site = row.Position(layout.Site);
        var projected = row.Position(layout.Projected);
        var deviation = row.Number(layout.StandardDeviation);
        row.Require(layout.Name, "the name of the mark");
        row.Require(layout.StandardDeviation, "a standard deviation in metres");
        if (!row.IsBad && (site is null || projected is null))
            row.Problem(layout.Site.Title, "", "the position in both frames");
        if (name is not null && !lines.TryAdd(name, row.Line))
            row.Problem(layout.Name.Title, name, string.Create(CultureInfo.InvariantCulture, $"each mark once; line {lines[name]} has it already"));
        return row.IsBad || name is null || site is not { } here || projected is not { } there || deviation is null
            ? null
            : new ControlPoint(
                name, new SiteCoordinate(here.First, here.Second), new ProjectedCoordinate(there.First, there.Second), deviation.Value);
    }
}
