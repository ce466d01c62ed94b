using NodaTime;
using NodaTime.Text;

namespace SiteProgress.Exchange.TextTables;

/// <summary>Reads a working day: a date without a time of day, in the two ways of writing one that cannot be mistaken.</summary>
internal static class DayCell
{
    private static readonly LocalDatePattern[] Patterns =
    [
        LocalDatePattern.Iso, LocalDatePattern.CreateWithInvariantCulture("dd.MM.uuuu"),
    ];

    /// <summary>The day of a cell; null where it is blank or cannot be read, which is then told.</summary>
    public static LocalDate? Read(RowCells row, Column column)
    {
        if (row.Text(column, 30) is not { } text) return null;
        if (Parse(text) is { } day) return day;
        row.Problem(column.Title, text, Expected);
        return null;
    }

    /// <summary>The day of a cell that says something beside what the row is about: one that cannot be read is told, and the row stays.</summary>
    public static LocalDate? ReadAside(RowCells row, Column column)
    {
        if (row.Text(column, 30) is not { } text) return null;
        LocalDate? day = Parse(text);
        if (day is null) row.Warn(column.Title, text, Expected);
        return day;
    }

    private static string Expected => "a date such as 2026-03-10 or 10.03.2026";

    private static LocalDate? Parse(string text)
    {
        // A date of a workbook is a day number, and comes with midnight; AGS4 may write the time of day after a T.
        if (text.EndsWith(" 00:00", StringComparison.Ordinal)) text = text[..^6];
        if (text.Length > 10 && text[10] == 'T') text = text[..10];
        foreach (LocalDatePattern pattern in Patterns)
        {
            if (pattern.Parse(text) is { Success: true, Value: var day } && day.Year is >= 1990 and <= 2100) return day;
        }

        return null;
    }
}
