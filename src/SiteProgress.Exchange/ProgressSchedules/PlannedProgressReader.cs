using SiteProgress.Core.Piles;
using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.ProgressSchedules;

/// <summary>Columns of a schedule of progress.</summary>
internal sealed class PlannedProgressLayout : TableLayout
{
    /// <param name="axes">Names of the axes of the site grid.</param>
    public PlannedProgressLayout(GridAxes axes)
        : base("schedule of progress", axes)
    {
        Day = Text("Day", required: true, "Date", "Working day", "By");
        Zone = Text("Zone", required: false, "Area");
        Piles = Text("Planned piles cumulative", required: true, "Cumulative planned piles", "Planned piles", "Cumulative piles");
    }

    public Column Day { get; }

    public Column Zone { get; }

    public Column Piles { get; }
}

/// <summary>Reads how many piles shall stand by which day.</summary>
public static class PlannedProgressReader
{
    /// <summary>Reads a schedule of progress; a row without a zone is about the whole site.</summary>
    /// <param name="stream">The file.</param>
    /// <param name="choices">What to read with.</param>
    /// <param name="cancellation">Ends the reading.</param>
    /// <returns>Rows in the order of the file, and every problem by line. A number that falls within its zone is a problem.</returns>
    /// <exception cref="OperationCanceledException">The reading was ended.</exception>
    public static TableReading<PlannedProgress> Read(Stream stream, ReadingChoices choices, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(choices);
        var layout = new PlannedProgressLayout(choices.GridAxes);
        var before = new Dictionary<string, PlannedProgress>(StringComparer.OrdinalIgnoreCase);
        return TableWalk<PlannedProgress>.Read(stream, choices, layout, row => ReadRow(row, layout, choices, before), cancellation);
    }

    private static PlannedProgress? ReadRow(RowCells row, PlannedProgressLayout layout, ReadingChoices choices, Dictionary<string, PlannedProgress> before)
    {
        var day = DayCell.Read(row, layout.Day);
        var zone = row.Known(layout.Zone, choices.Zones, "a zone");
        var piles = row.Whole(layout.Piles, 0, 10_000_000);
        row.Require(layout.Day, "a date");
        row.Require(layout.Piles, "a whole number of piles");
        if (row.IsBad || day is null || piles is null) return null;
        var planned = new PlannedProgress(day.Value, zone, piles.Value);
        if (before.TryGetValue(zone ?? "", out var last) && last.Day < planned.Day && last.CumulativePiles > planned.CumulativePiles)
        {
            row.Problem(layout.Piles.Title, FormattableString.Invariant($"{piles}"), FormattableString.Invariant($"at least the {last.CumulativePiles} of {last.Day:uuuu-MM-dd}: the numbers are cumulative"));
            return null;
        }

        before[zone ?? ""] = planned;
        return planned;
    }
}
