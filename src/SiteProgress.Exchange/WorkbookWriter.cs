using System.Data;
using MiniExcelLibs;
using NodaTime;

namespace SiteProgress.Exchange;

/// <summary>
/// The same table as a workbook of one sheet (Office Open XML, ISO/IEC 29500). Numbers are numbers, rounded as in the text table; texts
/// are never formulas; times are text with their offset, as a workbook's own times have none.
/// </summary>
public sealed class WorkbookWriter() : TableWriter(TextWriter.Null)
{
    private readonly List<List<object?>> rows = [[]];

    /// <inheritdoc />
    public override TableWriter Text(string? text) => Cell(string.IsNullOrEmpty(text) ? null : text);

    /// <inheritdoc />
    public override TableWriter Number(double? value, int decimals)
    {
        if (value is { } number && !double.IsFinite(number)) throw new ArgumentOutOfRangeException(nameof(value), number, "A table holds finite numbers only.");
        return Cell(value is { } finite ? Math.Round(finite, decimals, MidpointRounding.ToEven) + 0.0 : null);
    }

    /// <inheritdoc />
    public override TableWriter Whole(long? value) => Cell(value);

    /// <inheritdoc />
    public override TableWriter Time(Instant? instant, DateTimeZone zone)
    {
        ArgumentNullException.ThrowIfNull(zone);
        return Cell(instant is { } value ? TimePattern.Format(value.InZone(zone).ToOffsetDateTime()) : null);
    }

    /// <inheritdoc />
    public override TableWriter EndRow()
    {
        rows.Add([]);
        return this;
    }

    /// <summary>Writes the workbook; the first row is the head.</summary>
    /// <param name="output">Where to; it is not closed.</param>
    public void Save(Stream output)
    {
        using DataTable table = new();
        List<object?> head = rows[0];
        // A title that stands twice is told apart by a number, as a workbook's columns need names of their own.
        foreach (object? title in head)
        {
            string name = title as string ?? "";
            for (int again = 2; table.Columns.Contains(name); again++) name = $"{title} ({again})";
            table.Columns.Add(name, typeof(object));
        }

        foreach (List<object?> row in rows.Skip(1).Where(row => row.Count > 0))
            table.Rows.Add(row.Select(cell => cell ?? DBNull.Value).ToArray());
        output.SaveAs(table);
    }

    private WorkbookWriter Cell(object? value)
    {
        rows[^1].Add(value);
        return this;
    }
}
