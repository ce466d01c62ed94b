using NodaTime;
using NodaTime.Text;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.ControlPoints;

/// <summary>A control point as it was found on a day.</summary>
/// <param name="Mark">Name of the mark.</param>
/// <param name="Position">Where it was found: projected CRS in metres, or latitude and longitude in degrees.</param>
/// <param name="StandardDeviationMetres">Standard deviation of one coordinate, metres.</param>
/// <param name="ObservedOn">The day, site time.</param>
/// <param name="Method">How it was observed.</param>
public sealed record ObservedControlPoint(string Mark, RecordedPosition Position, double StandardDeviationMetres, LocalDate ObservedOn, string Method);

/// <summary>Columns of a list of observations of control points.</summary>
internal sealed class ControlPointObservationLayout : TableLayout
{
    /// <param name="axes">Names of the axes of the site grid.</param>
    public ControlPointObservationLayout(GridAxes axes)
        : base("observations of control points", axes)
    {
        Name = Text("Name", required: true, "Point", "Mark", "Control point");
        Day = Text("Observed on", required: true, "Day", "Date");
        Position = Position("", required: true, Frame.ProjectedCrs, Frame.Geographic);
        StandardDeviation = Number("Standard deviation", Quantity.Uncertainty, "Std dev", "Sigma");
        Method = Text("Method", required: true);
    }

    public Column Name { get; }

    public Column Day { get; }

    public new PositionColumns Position { get; }

    public Column StandardDeviation { get; }

    public Column Method { get; }
}

/// <summary>Reads observations of control points from a text table.</summary>
public static class ControlPointObservationReader
{
    /// <summary>Reads a list of observations.</summary>
    /// <param name="stream">The list, a text table with a header.</param>
    /// <param name="choices">What to read with.</param>
    /// <param name="cancellation">Ends the reading.</param>
    /// <returns>The observations, and every problem by line.</returns>
    public static TableReading<ObservedControlPoint> Read(Stream stream, ReadingChoices choices, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(choices);
        var layout = new ControlPointObservationLayout(choices.GridAxes);
        return TableWalk<ObservedControlPoint>.Read(stream, choices with { Frame = null }, layout, row => ReadRow(row, layout), cancellation);
    }

    private static ObservedControlPoint? ReadRow(RowCells row, ControlPointObservationLayout layout)
    {
        var name = row.Text(layout.Name, 100);
        var written = row.Text(layout.Day, 40);
        var position = row.Position(layout.Position);
        var deviation = row.Number(layout.StandardDeviation);
        var method = row.Text(layout.Method, 200);
        row.Require(layout.Name, "the name of the mark");
        row.Require(layout.Day, "the day of the observation");
        row.Require(layout.StandardDeviation, "a standard deviation in metres");
        row.Require(layout.Method, "how the mark was observed");
        var day = written is null ? null : LocalDatePattern.Iso.Parse(written);
        if (day is { Success: false }) row.Problem(layout.Day.Title, written, "a day such as 2026-04-10");
        if (!row.IsBad && position is null) row.Problem("position", "", "where the mark was found");
        return row.IsBad || name is null || position is not { } found || deviation is null || day is null || method is null
            ? null
            : new ObservedControlPoint(name, found, deviation.Value, day.Value, method);
    }
}
