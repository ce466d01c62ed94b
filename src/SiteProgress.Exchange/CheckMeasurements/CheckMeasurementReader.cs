using System.Globalization;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.CheckMeasurements;

/// <summary>Columns of a file of check measurements.</summary>
internal sealed class CheckMeasurementLayout : TableLayout
{
    /// <param name="axes">Names of the axes of the site grid.</param>
    public CheckMeasurementLayout(GridAxes axes)
        : base("check measurements", axes)
    {
        DayBeside("Day", "Date of check");
        At = Time("Time", required: true, "Date and time", "Date time", "Datetime", "Measured at", "Checked at");
        Barge = Text("Barge", required: true, "Barge name", "Vessel", "Vessel name", "Rig");
        Casing = Text("Casing", required: true, "Casing No", "Casing Nr", "Casing number", "Pipe No", "Tube No");
        PileNumber = NameOf("Pile No", required: false, PileNames.Usual, []);
        Recorded = Position("recorded", required: true, Frame.SiteGrid, Frame.ProjectedCrs, Frame.Geographic);
        Measured = Position("measured", required: true, Frame.SiteGrid, Frame.ProjectedCrs, Frame.Geographic);
        Method = Text("Method", required: true);
        Uncertainty = Number("Uncertainty", Quantity.Uncertainty);
    }

    public Column At { get; }

    public Column Barge { get; }

    public Column Casing { get; }

    public Column PileNumber { get; }

    public PositionColumns Recorded { get; }

    public PositionColumns Measured { get; }

    public Column Method { get; }

    public Column Uncertainty { get; }
}

/// <summary>Reads check measurements from a text table.</summary>
public static class CheckMeasurementReader
{
    /// <summary>Reads check measurements. Everything but the pile number must be there: half a check shows nothing.</summary>
    /// <param name="stream">The file.</param>
    /// <param name="choices">What to read with.</param>
    /// <param name="cancellation">Ends the reading.</param>
    /// <returns>Measurements in the frame of the file, and every problem by line.</returns>
    /// <exception cref="OperationCanceledException">The reading was ended.</exception>
    public static TableReading<CheckMeasurement> Read(Stream stream, ReadingChoices choices, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(choices);
        var layout = new CheckMeasurementLayout(choices.GridAxes);
        string[] barges = [.. choices.Barges.Select(barge => barge.Name)];
        return TableWalk<CheckMeasurement>.Read(stream, choices, layout, row => ReadRow(row, layout, choices, barges), cancellation);
    }

    private static CheckMeasurement? ReadRow(RowCells row, CheckMeasurementLayout layout, ReadingChoices choices, string[] barges)
    {
        var at = row.Time(layout.At);
        var barge = row.Known(layout.Barge, barges, "a barge");
        var casing = row.Whole(layout.Casing, 1, 99);
        var number = row.PileNumber(layout.PileNumber);
        var recorded = row.Position(layout.Recorded);
        var measured = row.Position(layout.Measured);
        var method = row.Text(layout.Method, 200);
        var uncertainty = row.Number(layout.Uncertainty);
        foreach (var column in new[] { layout.At, layout.Barge, layout.Casing, layout.Method, layout.Uncertainty })
            row.Require(column, "a value");
        if (!row.IsBad && (recorded is null || measured is null))
            row.Problem(recorded is null ? layout.Recorded.Title : layout.Measured.Title, "", "both coordinates");
        JudgeCasing(row, layout, choices, barge, casing);
        return row.IsBad || at is null || barge is null || casing is null || recorded is null || measured is null || method is null || uncertainty is null
            ? null
            : new CheckMeasurement(at.Value, barge, casing.Value, number, recorded.Value, measured.Value, method, uncertainty.Value);
    }

    private static void JudgeCasing(RowCells row, CheckMeasurementLayout layout, ReadingChoices choices, string? barge, int? casing)
    {
        if (barge is null || casing is null)
            return;
        var known = choices.Barges.First(item => item.Name == barge).Casings;
        if (known.Count > 0 && known.All(item => item.Number != casing))
        {
            row.Problem(
                layout.Casing.Title, casing.Value.ToString(CultureInfo.InvariantCulture),
                $"a casing of {barge}: {string.Join(", ", known.Select(item => item.Number.ToString(CultureInfo.InvariantCulture)))}");
        }
    }
}
