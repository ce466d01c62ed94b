using System.IO.Compression;
using System.Text;

namespace SiteProgress.Exchange.Tests.Workbooks;

/// <summary>A workbook put together from the XML of its parts, so that a test decides every byte of them (ECMA-376 part 1).</summary>
internal sealed class XlsxText
{
    private const string Main = "xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\"";
    private const string Office = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

    private readonly List<(string Name, string Rows, string State)> _sheets = [];

    public string SharedStrings { get; init; } = "";

    public string Styles { get; init; } = "";

    public string WorkbookProperties { get; init; } = "";

    public static XlsxText Of(string rows) => new XlsxText().With("Sheet1", rows);

    public XlsxText With(string name, string rows, string state = "visible")
    {
        _sheets.Add((name, rows, state));
        return this;
    }

    /// <summary>A row of cells as inline text, numbers as numbers.</summary>
    public static string Row(int number, params string?[] cells)
        => $"<row r=\"{number}\">{string.Concat(cells.Select((cell, index) => Cell(number, index, cell)))}</row>";

    public MemoryStream ToStream()
    {
        var bytes = new MemoryStream();
        using (var zip = new ZipArchive(bytes, ZipArchiveMode.Create, leaveOpen: true))
        {
            Add(zip, "_rels/.rels", $"<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\"><Relationship Id=\"r0\" Type=\"{Office}/officeDocument\" Target=\"xl/workbook.xml\"/></Relationships>");
            var sheets = _sheets.Select((sheet, index) => $"<sheet name=\"{sheet.Name}\" sheetId=\"{index + 1}\" state=\"{sheet.State}\" r:id=\"r{index + 1}\"/>");
            Add(zip, "xl/workbook.xml", $"<workbook {Main} xmlns:r=\"{Office}\">{WorkbookProperties}<sheets>{string.Concat(sheets)}</sheets></workbook>");
            var targets = _sheets.Select((_, index) => $"<Relationship Id=\"r{index + 1}\" Type=\"{Office}/worksheet\" Target=\"worksheets/sheet{index + 1}.xml\"/>");
            Add(zip, "xl/_rels/workbook.xml.rels", $"<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\">{string.Concat(targets)}<Relationship Id=\"s\" Type=\"{Office}/sharedStrings\" Target=\"sharedStrings.xml\"/><Relationship Id=\"t\" Type=\"{Office}/styles\" Target=\"styles.xml\"/></Relationships>");
            Add(zip, "xl/sharedStrings.xml", $"<sst {Main}>{SharedStrings}</sst>");
            Add(zip, "xl/styles.xml", $"<styleSheet {Main}>{Styles}</styleSheet>");
            for (var index = 0; index < _sheets.Count; index++)
                Add(zip, $"xl/worksheets/sheet{index + 1}.xml", $"<worksheet {Main}><sheetData>{_sheets[index].Rows}</sheetData></worksheet>");
        }

        bytes.Position = 0;
        return bytes;
    }

    public static void Add(ZipArchive zip, string name, string text)
    {
        using var entry = zip.CreateEntry(name, CompressionLevel.Optimal).Open();
        entry.Write(Encoding.UTF8.GetBytes(text));
    }

    private static string Cell(int row, int column, string? text) => text switch
    {
        null => "",
        _ when double.TryParse(text, System.Globalization.CultureInfo.InvariantCulture, out _) => $"<c r=\"{Name(column)}{row}\"><v>{text}</v></c>",
        _ => $"<c r=\"{Name(column)}{row}\" t=\"inlineStr\"><is><t>{System.Security.SecurityElement.Escape(text)}</t></is></c>",
    };

    private static string Name(int column) => column < 26 ? ((char)('A' + column)).ToString() : $"{Name((column / 26) - 1)}{(char)('A' + (column % 26))}";
}
