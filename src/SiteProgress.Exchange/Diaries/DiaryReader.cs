using SiteProgress.Core.Piles;
using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.Diaries;

/// <summary>Columns of a diary.</summary>
internal sealed class DiaryLayout : TableLayout
{
    /// <param name="axes">Names of the axes of the site grid.</param>
    public DiaryLayout(GridAxes axes)
        : base("diary", axes)
    {
        Day = Text("Working day", required: true, "Work day", "Day", "Date");
        Barge = Text("Barge", required: true, "Vessel");
        Activity = Text("Activity", required: true);
        Cause = Text("Cause", required: false, "Reason");
        BorneBy = Text("Borne by", required: false, "Account");
        Hours = Number("Hours", Quantity.Hours, "Duration");
        Remark = Text("Remark", required: false, "Remarks", "Comment");
    }

    public Column Day { get; }

    public Column Barge { get; }

    public Column Activity { get; }

    public Column Cause { get; }

    public Column BorneBy { get; }

    public Column Hours { get; }

    public Column Remark { get; }
}

/// <summary>Reads hours of barges from a text table.</summary>
public static class DiaryReader
{
    /// <summary>Reads a diary. Hours are kept to a hundredth.</summary>
    /// <param name="stream">The file.</param>
    /// <param name="choices">What to read with.</param>
    /// <param name="cancellation">Ends the reading.</param>
    /// <returns>Entries in the order of the file, and every problem by line.</returns>
    /// <exception cref="OperationCanceledException">The reading was ended.</exception>
    public static TableReading<DiaryEntry> Read(Stream stream, ReadingChoices choices, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(choices);
        var layout = new DiaryLayout(choices.GridAxes);
        string[] barges = [.. choices.Barges.Select(barge => barge.Name)];
        return TableWalk<DiaryEntry>.Read(stream, choices, layout, row => ReadRow(row, layout, barges), cancellation);
    }

    private static DiaryEntry? ReadRow(RowCells row, DiaryLayout layout, string[] barges)
    {
        var day = DayCell.Read(row, layout.Day);
        var barge = row.Known(layout.Barge, barges, "a barge");
        var activity = row.Text(layout.Activity, 100);
        var cause = row.Text(layout.Cause, 200);
        var borneBy = row.Text(layout.BorneBy, 50);
        var hours = row.Number(layout.Hours);
        var remark = row.Text(layout.Remark, 500);
        foreach (var column in new[] { layout.Day, layout.Barge, layout.Activity, layout.Hours }) row.Require(column, "a value");
        var rounded = hours is { } written ? Math.Round((decimal)written, 2, MidpointRounding.AwayFromZero) : 0;
        if (hours is not null && rounded == 0) row.Problem(layout.Hours.Title, "0", "hours above zero");
        return row.IsBad || day is null || barge is null || activity is null || hours is null
            ? null
            : new DiaryEntry(day.Value, barge, activity, cause, borneBy, rounded, remark);
    }
}
