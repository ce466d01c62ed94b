using System.Globalization;
using System.Text;
using System.Xml;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.Sources;

namespace SiteProgress.Exchange.MapFiles;

/// <summary>Points of a LandXML text as a table.</summary>
/// <remarks>
/// LandXML-1.2 schema: the text of a CgPoint is northing, easting and elevation, in this order; Units holds the linear unit,
/// CoordinateSystem may hold an EPSG code.
/// </remarks>
internal sealed class LandXmlSource : RowSource
{
    /// <summary>The format in words.</summary>
    public const string Format = "LandXML text";

    private static readonly TableWay Only = new(0, null, '\0');

    private readonly Stream _stream;
    private readonly long _begin;
    private readonly MapFrame _frame;
    private readonly string _unit;
    private readonly bool _unitStated;

    /// <param name="stream">The text.</param>
    /// <param name="choices">Frame a person chose.</param>
    /// <param name="cancellation">Ends the reading.</param>
    public LandXmlSource(Stream stream, ReadingChoices choices, CancellationToken cancellation)
        : base(Format, cancellation)
    {
        (_stream, _begin) = (stream, stream.Position);
        var (root, unit, epsg) = Preamble();
        (_unit, _unitStated) = (unit ?? "m", unit is not null);
        _frame = MapFrame.Decide(choices, epsg, epsg is { } code ? string.Create(CultureInfo.InvariantCulture, $"its coordinate system is EPSG:{code}") : "the text names no coordinate system by its EPSG code", _unit);
        Refusal = root is "LandXML" ? null : $"LandXML; this is XML of another kind (\u201C{ImportProblem.Shorten(root)}\u201D)";
    }

    public override IReadOnlyList<TableWay> Ways => [Only];

    public override string Describe(TableWay way) => Format;

    public override IReadOnlyList<string> Assumptions(TableWay way) =>
    [
        "Lines are numbers of points.",
        _unitStated ? $"The text's linear unit is {_unit}." : "The text names no linear unit, so metres.",
        .. _frame.Assumption is { } sentence ? [sentence] : Array.Empty<string>(),
    ];

    public override IReadOnlyList<OpenQuestion> Questions(TableWay way) => _frame.Questions;

    public override string? Unanswered(TableWay way) => _frame.Unanswered;

    protected override IEnumerable<SourceRow> Rows(TableWay way)
    {
        yield return new SourceRow(0, ["Name", "Code", "Description", _frame.First, _frame.Second, $"Elevation [{_unit}]"]);
        long number = 0;
        var text = new StringBuilder();
        _stream.Position = _begin;
        using var reader = StrictXml.Open(new KeptOpen(_stream));
        while (StrictXml.Next(reader))
        {
            if (reader is not { NodeType: XmlNodeType.Element, LocalName: "CgPoint" })
                continue;
            number++;
            var (name, code, description, reference) = (reader.GetAttribute("name"), reader.GetAttribute("code"), reader.GetAttribute("desc"), reader.GetAttribute("pntRef"));
            text.Clear();
            StrictXml.AppendText(reader, text);
            if (reference is not null && text.Length == 0)
                continue;
            var numbers = text.ToString().Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
            yield return new SourceRow(number, [name, code, description, numbers.ElementAtOrDefault(1), numbers.ElementAtOrDefault(0), numbers.ElementAtOrDefault(2)]);
        }
    }

    private (string Root, string? Unit, int? Epsg) Preamble()
    {
        var root = "";
        string? unit = null;
        int? epsg = null;
        using var reader = StrictXml.Open(new KeptOpen(_stream));
        while (StrictXml.Next(reader) && reader.LocalName is not ("CgPoints" or "Surfaces" or "Alignments"))
        {
            if (reader.NodeType is not XmlNodeType.Element)
                continue;
            if (root.Length == 0)
                root = reader.LocalName;
            if (reader.LocalName is "Metric" or "Imperial")
                unit = UnitOf(reader.GetAttribute("linearUnit"));
            if (reader.LocalName is "CoordinateSystem" && int.TryParse(reader.GetAttribute("epsgCode"), NumberStyles.None, CultureInfo.InvariantCulture, out var code))
                epsg = code;
        }

        return (root, unit, epsg);
    }

    private static string? UnitOf(string? linearUnit) => linearUnit switch
    {
        null => null,
        "meter" => "m",
        "millimeter" => "mm",
        "centimeter" => "cm",
        "foot" => "ft",
        "USSurveyFoot" => "us-ft",
        var other => other,
    };

    /// <summary>The stream belongs to who gave it.</summary>
    private sealed class KeptOpen(Stream inner) : ForwardStream
    {
        public override int Read(Span<byte> buffer) => inner.Read(buffer);
    }
}
