using System.Globalization;
using System.Text;
using System.Xml;
using SiteProgress.Exchange.Sources;
using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.Workbooks;

/// <summary>The rows of one sheet as text cells, one after the other (ECMA-376 part 1, section 18.3.1).</summary>
/// <param name="parts">Styles and date system.</param>
/// <param name="texts">Shared texts.</param>
internal sealed class SheetRows(WorkbookParts parts, SharedTexts texts)
{
    private const long MostRows = 1_048_576;

    private readonly StringBuilder _text = new();

    /// <summary>Reads a sheet.</summary>
    /// <param name="sheet">Its bytes; closed at the end.</param>
    public IEnumerable<SourceRow> Read(Stream sheet)
    {
        using var reader = StrictXml.Open(sheet);
        long row = 0;
        while (StrictXml.Next(reader))
        {
            if (reader is not { NodeType: XmlNodeType.Element, LocalName: "row" })
                continue;
            row = RowNumber(reader.GetAttribute("r"), row);
            var cells = ReadCells(reader);
            if (cells.Count > 0)
                yield return new SourceRow(row, cells);
        }
    }

    private static long RowNumber(string? written, long before)
    {
        if (written is null)
            return before + 1;
        if (!long.TryParse(written, NumberStyles.None, CultureInfo.InvariantCulture, out var row) || row <= before || row > MostRows)
            throw new BrokenFileException("a sheet whose rows are numbered upwards");
        return row;
    }

    private List<string?> ReadCells(XmlReader reader)
    {
        var cells = new List<string?>();
        if (reader.IsEmptyElement)
            return cells;
        var depth = reader.Depth;
        var next = 0;
        while (StrictXml.Next(reader) && reader.Depth > depth)
        {
            if (reader is not { NodeType: XmlNodeType.Element, LocalName: "c" })
                continue;
            var column = reader.GetAttribute("r") is { } reference ? ColumnOf(reference) : next;
            next = column + 1;
            if (ReadCell(reader) is not { Length: > 0 } text)
                continue;
            // A stray cell far to the right is told with its row as too many cells; it need not be placed where it stands.
            var place = Math.Min(column, RecordSplitter.MostCells);
            while (cells.Count <= place)
                cells.Add(null);
            cells[place] = text;
        }

        return cells;
    }

    private static int ColumnOf(string reference)
    {
        var column = 0;
        foreach (var letter in reference)
        {
            if (letter is < 'A' or > 'Z' || column > 20_000)
                break;
            column = (26 * column) + (letter - 'A' + 1);
        }

        return column is > 0 and <= 16_384 ? column - 1 : throw new BrokenFileException("cells named A1 to XFD1048576");
    }

    private string? ReadCell(XmlReader reader)
    {
        var type = reader.GetAttribute("t") ?? "n";
        var style = int.TryParse(reader.GetAttribute("s"), NumberStyles.None, CultureInfo.InvariantCulture, out var index) && index < parts.Styles.Count
            ? parts.Styles[index]
            : default;
        if (reader.IsEmptyElement)
            return null;
        string? value = null;
        var hasFormula = false;
        var depth = reader.Depth;
        while (StrictXml.Next(reader) && reader.Depth > depth)
        {
            if (reader.NodeType is not XmlNodeType.Element)
                continue;
            hasFormula |= reader.LocalName == "f";
            if (reader.LocalName is "v" or "is")
                value = TextOf(reader);
            else
                StrictXml.Skip(reader);
        }

        return string.IsNullOrEmpty(value)
            ? hasFormula && type != "str" ? "(formula without a kept value)" : null
            : Shown(value, type, style);
    }

    private string TextOf(XmlReader reader)
    {
        _text.Clear();
        StrictXml.AppendText(reader, _text, leaveOut: "rPh");
        return _text.ToString();
    }

    private string? Shown(string value, string type, CellStyle style) => type switch
    {
        "s" => int.TryParse(value, NumberStyles.None, CultureInfo.InvariantCulture, out var index) && texts.Find(index) is { } text
            ? text
            : throw new BrokenFileException("a workbook whose cells name texts it has; this one is damaged"),
        "b" => value == "1" ? "TRUE" : "FALSE",
        "d" => value.Replace('T', ' '),
        "n" when style.IsDate && double.TryParse(value, NumberStyles.Float, CultureInfo.InvariantCulture, out var days)
            && CellDates.ToText(days, parts.From1904) is { } date => date,
        "n" => CellDates.PlainNumber(value) is { } number ? Padded(number, style.LeastDigits) : value,
        _ => value,
    };

    /// <summary>A pile number 12 under a format of four zeros is shown as 0012, and meant so.</summary>
    private static string Padded(string number, int leastDigits)
        => leastDigits > number.Length && number.All(char.IsAsciiDigit) ? number.PadLeft(leastDigits, '0') : number;
}
