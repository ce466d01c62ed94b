using System.Globalization;
using System.Text;
using System.Xml;
using SiteProgress.Exchange.Sources;

namespace SiteProgress.Exchange.Workbooks;

/// <summary>One sheet of a workbook.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Part">Name of its part in the archive.</param>
/// <param name="IsHidden">True where people do not see it.</param>
internal sealed record WorkbookSheet(string Name, string Part, bool IsHidden);

/// <summary>How a style writes its numbers.</summary>
/// <param name="IsDate">True where it shows them as dates or times.</param>
/// <param name="LeastDigits">Digits to which it fills whole numbers with zeros in front; 0 where it does not.</param>
internal readonly record struct CellStyle(bool IsDate, int LeastDigits);

/// <summary>The parts of a workbook beside its sheets (ECMA-376 part 1, sections 18.2, 18.4 and 18.8), read strictly.</summary>
internal sealed class WorkbookParts
{
    private const int MostSheets = 200;
    private const int MostStyles = 65_536;

    private WorkbookParts(IReadOnlyList<WorkbookSheet> sheets, bool from1904, IReadOnlyList<CellStyle> styles, string? stringsPart)
        => (Sheets, From1904, Styles, StringsPart) = (sheets, from1904, styles, stringsPart);

    /// <summary>Sheets, those that people see first.</summary>
    public IReadOnlyList<WorkbookSheet> Sheets { get; }

    /// <summary>True where days are counted from 1904.</summary>
    public bool From1904 { get; }

    /// <summary>Styles by their number.</summary>
    public IReadOnlyList<CellStyle> Styles { get; }

    /// <summary>Name of the part with the shared texts; null where there is none.</summary>
    public string? StringsPart { get; }

    /// <summary>Reads the parts.</summary>
    /// <param name="archive">The workbook.</param>
    public static WorkbookParts Read(BoundedArchive archive)
    {
        var workbook = Targets(archive, "").FirstOrDefault(target => target.Kind == "officeDocument").Part ?? "xl/workbook.xml";
        if (!archive.Has(workbook))
            throw new BrokenFileException("a workbook (xlsx); this is a zip archive without one");

        var targets = Targets(archive, workbook);
        var (sheets, from1904) = Workbook(archive, workbook, targets.ToLookup(target => target.Id, target => target.Part));
        var styles = targets.FirstOrDefault(target => target.Kind == "styles").Part is { } part ? ReadStyles(archive, part) : [];
        return new WorkbookParts(sheets, from1904, styles, targets.FirstOrDefault(target => target.Kind == "sharedStrings").Part);
    }

    /// <summary>What a part refers to within the archive. A reference out of the archive leads nowhere.</summary>
    private static List<(string Id, string Kind, string Part)> Targets(BoundedArchive archive, string of)
    {
        var folder = of[..(of.LastIndexOf('/') + 1)];
        var targets = new List<(string, string, string)>();
        if (archive.Open($"{folder}_rels/{of[folder.Length..]}.rels") is not { } stream)
            return targets;
        using var reader = StrictXml.Open(stream);
        while (StrictXml.Next(reader))
        {
            if (reader is not { NodeType: XmlNodeType.Element, LocalName: "Relationship" } || reader.GetAttribute("TargetMode") == "External")
                continue;
            var type = reader.GetAttribute("Type") ?? "";
            targets.Add((reader.GetAttribute("Id") ?? "", type[(type.LastIndexOf('/') + 1)..], Resolve(folder, reader.GetAttribute("Target") ?? "")));
            if (targets.Count > InflationLimits.MostEntries)
                throw new BrokenFileException("a workbook with at most 1,000 references");
        }

        return targets;
    }

    private static string Resolve(string folder, string target)
    {
        if (target.StartsWith('/'))
            return target[1..];
        var parts = new List<string>(folder.Split('/', StringSplitOptions.RemoveEmptyEntries));
        foreach (var part in target.Split('/'))
        {
            if (part == ".." && parts.Count > 0)
                parts.RemoveAt(parts.Count - 1);
            else if (part is not (".." or "." or ""))
                parts.Add(part);
        }

        return string.Join('/', parts);
    }

    private static (IReadOnlyList<WorkbookSheet> Sheets, bool From1904) Workbook(BoundedArchive archive, string part, ILookup<string, string> targets)
    {
        var sheets = new List<WorkbookSheet>();
        var from1904 = false;
        using var reader = StrictXml.Open(archive.Open(part)!);
        while (StrictXml.Next(reader))
        {
            if (reader is { NodeType: XmlNodeType.Element, LocalName: "workbookPr" })
                from1904 = reader.GetAttribute("date1904") is "1" or "true";
            if (reader is not { NodeType: XmlNodeType.Element, LocalName: "sheet" })
                continue;
            var id = Relation(reader);
            if (id is not null && targets[id].FirstOrDefault() is { } target && archive.Has(target))
                sheets.Add(new WorkbookSheet(reader.GetAttribute("name") ?? target, target, reader.GetAttribute("state") is "hidden" or "veryHidden"));
            if (sheets.Count > MostSheets)
                throw new BrokenFileException("a workbook of at most 200 sheets");
        }

        return ([.. sheets.OrderBy(sheet => sheet.IsHidden)], from1904);
    }

    /// <summary>The attribute r:id, whose namespace differs between the two editions of the standard.</summary>
    private static string? Relation(XmlReader reader)
    {
        string? found = null;
        for (var more = reader.MoveToFirstAttribute(); more; more = reader.MoveToNextAttribute())
        {
            if (reader.LocalName == "id" && reader.NamespaceURI.EndsWith("relationships", StringComparison.Ordinal))
                found = reader.Value;
        }

        reader.MoveToElement();
        return found;
    }

    private static List<CellStyle> ReadStyles(BoundedArchive archive, string part)
    {
        var codes = new Dictionary<int, string>();
        var styles = new List<CellStyle>();
        if (archive.Open(part) is not { } stream)
            return styles;
        using var reader = StrictXml.Open(stream);
        var inCellFormats = false;
        while (StrictXml.Next(reader))
        {
            if (reader.LocalName == "cellXfs")
                inCellFormats = reader.NodeType is XmlNodeType.Element && !reader.IsEmptyElement;
            else if (reader is { NodeType: XmlNodeType.Element, LocalName: "numFmt" } && Number(reader, "numFmtId") is { } id)
                codes[id] = reader.GetAttribute("formatCode") ?? "";
            else if (inCellFormats && reader is { NodeType: XmlNodeType.Element, LocalName: "xf" })
                styles.Add(StyleOf(Number(reader, "numFmtId") ?? 0, codes));
            if (styles.Count > MostStyles || codes.Count > MostStyles)
                throw new BrokenFileException("a workbook of at most 65,536 styles");
        }

        return styles;
    }

    private static CellStyle StyleOf(int format, Dictionary<int, string> codes)
    {
        if (!codes.TryGetValue(format, out var code))
            return new CellStyle(CellDates.IsBuiltInDate(format), 0);
        var zeros = code.Length is >= 2 and <= 15 && code.All(letter => letter == '0');
        return new CellStyle(CellDates.IsDateCode(code), zeros ? code.Length : 0);
    }

    private static int? Number(XmlReader reader, string attribute)
        => int.TryParse(reader.GetAttribute(attribute), NumberStyles.None, CultureInfo.InvariantCulture, out var value) ? value : null;
}

/// <summary>The texts that cells of a workbook share, in one run of characters.</summary>
internal sealed class SharedTexts
{
    private const int MostCharacters = 32 << 20;
    private const int MostTexts = 2_000_000;

    private readonly StringBuilder _text = new();
    private readonly List<int> _ends = [];

    /// <summary>Reads them.</summary>
    /// <param name="archive">The workbook.</param>
    /// <param name="part">Their part; null where there is none.</param>
    public static SharedTexts Read(BoundedArchive archive, string? part)
    {
        var texts = new SharedTexts();
        if (part is null || archive.Open(part) is not { } stream)
            return texts;
        using var reader = StrictXml.Open(stream);
        var one = new StringBuilder();
        while (StrictXml.Next(reader))
        {
            if (reader is { NodeType: XmlNodeType.Element, LocalName: "si" })
                texts.Add(reader, one);
        }

        texts._whole = texts._text.ToString();
        texts._text.Clear();
        return texts;
    }

    private string _whole = "";

    /// <summary>One text; null where there is none of this number.</summary>
    /// <param name="index">Its number, from 0.</param>
    public string? Find(int index)
        => index >= 0 && index < _ends.Count ? _whole[(index == 0 ? 0 : _ends[index - 1]).._ends[index]] : null;

    private void Add(XmlReader reader, StringBuilder one)
    {
        one.Clear();
        // Phonetic runs say how a text is spoken, not what it says.
        StrictXml.AppendText(reader, one, leaveOut: "rPh");
        _text.Append(one);
        _ends.Add(_text.Length);
        if (_text.Length > MostCharacters || _ends.Count > MostTexts)
            throw new BrokenFileException("a workbook whose cells share at most 32 million characters of text");
    }
}
