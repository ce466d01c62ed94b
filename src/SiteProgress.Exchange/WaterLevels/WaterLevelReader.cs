using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.WaterLevels;

/// <summary>Columns of a series of water levels.</summary>
internal sealed class WaterLevelLayout : TableLayout
{
    /// <param name="axes">Names of the axes of the site grid.</param>
    public WaterLevelLayout(GridAxes axes)
        : base("water levels", axes)
    {
        DayBeside("Day");
        At = Time("Time", required: true, "Date and time", "Date time", "Datetime", "Timestamp", "Read at", "Reading time", "Time of reading");
        Gauge = Text("Gauge", required: false, "Gauge name", "Tide gauge", "Station", "Station name");
        Metres = RequiredNumber("Water level", Quantity.Level, "Level", "WL", "Water lvl", "Gauge reading", "Gauge level", "Tide", "Tide level", "Tide height", "Sea level");
    }

    public Column At { get; }

    public Column Gauge { get; }

    public Column Metres { get; }
}

/// <summary>One reading of a gauge.</summary>
/// <param name="Gauge">Name of the gauge; null where the file names none.</param>
/// <param name="At">When.</param>
/// <param name="Metres">What it read, metres.</param>
public sealed record WaterReading(string? Gauge, Instant At, double Metres);

/// <summary>Reads a series of water levels from a table.</summary>
public static class WaterLevelReader
{
    /// <summary>Reads a series.</summary>
    /// <param name="stream">The file.</param>
    /// <param name="choices">What to read with.</param>
    /// <param name="cancellation">Ends the reading.</param>
    /// <returns>Readings in metres, and every problem by line.</returns>
    /// <exception cref="OperationCanceledException">The reading was ended.</exception>
    public static TableReading<WaterReading> Read(Stream stream, ReadingChoices choices, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(choices);
        var layout = new WaterLevelLayout(choices.GridAxes);
        return TableWalk<WaterReading>.Read(stream, choices, layout, row => ReadRow(row, layout), cancellation);
    }

    private static WaterReading? ReadRow(RowCells row, WaterLevelLayout layout)
    {
        var at = row.Time(layout.At);
        var gauge = row.Text(layout.Gauge, 80);
        var metres = row.Number(layout.Metres);
        row.Require(layout.At, "a time");
        row.Require(layout.Metres, "a water level");
        return row.IsBad || at is null || metres is null ? null : new WaterReading(gauge, at.Value, metres.Value);
    }
}
