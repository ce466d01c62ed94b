using System.Globalization;
using SiteProgress.Exchange.MapFiles;
using SiteProgress.Exchange.Sources;
using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.Drawings;

/// <summary>
/// A drawing exchange text (DXF, ASCII) as a table of the places a pile may be meant by: points, circles and block inserts,
/// with their layer, their attributes and the text beside them.
/// </summary>
internal sealed class DxfSource : RowSource
{
    /// <summary>The format in words.</summary>
    public const string Format = "drawing exchange text (DXF)";

    private static readonly TableWay Only = new(0, null, '\0');

    private readonly DxfDrawing _drawing;
    private readonly MapFrame _frame;
    private readonly string[] _tags;
    private readonly string?[] _texts;
    private readonly string _unit;

    /// <param name="stream">The drawing.</param>
    /// <param name="choices">Frame and encoding a person chose.</param>
    /// <param name="cancellation">Ends the reading.</param>
    public DxfSource(Stream stream, ReadingChoices choices, CancellationToken cancellation)
        : base(Format, cancellation)
    {
        _drawing = DxfDrawing.Read(new DxfPairs(stream, choices.Encoding, cancellation), choices.MostRows);
        _unit = _drawing.Unit ?? "m";
        _frame = MapFrame.Decide(choices, null, "a drawing names none", _unit);
        _texts = TextBeside.Find(_drawing.Places, _drawing.Texts);
        _tags = [.. _drawing.Places.SelectMany(place => place.Attributes.Select(attribute => attribute.Tag)).Distinct(StringComparer.OrdinalIgnoreCase).Take(200)];
        Refusal = _drawing.Places.Count == 0 ? "a drawing with points, circles or block inserts" : null;
    }

    public override IReadOnlyList<TableWay> Ways => [Only];

    /// <summary>True where a file begins like a drawing: the group code 0 and a section, perhaps after comments, or the mark of a binary one.</summary>
    /// <param name="head">First bytes.</param>
    public static bool Recognises(ReadOnlySpan<byte> head)
    {
        if (head.StartsWith("AutoCAD Binary DXF"u8))
            return true;
        var text = System.Text.Encoding.Latin1.GetString(head.TrimStart((ReadOnlySpan<byte>)[0xEF, 0xBB, 0xBF]));
        var lines = text.Split('\n');
        var at = 0;
        while (at + 1 < lines.Length && lines[at].Trim() == "999")
            at += 2;
        return at + 1 < lines.Length && lines[at].Trim() == "0" && lines[at + 1].Trim() == "SECTION";
    }

    public override string Describe(TableWay way)
        => string.Create(CultureInfo.InvariantCulture, $"a {Format} with {_drawing.Places.Count} points, circles and inserts and {_drawing.Texts.Count} texts");

    public override IReadOnlyList<string> Assumptions(TableWay way)
    {
        var sentences = new List<string>
        {
            "Lines are those of the drawing on which a point, circle or insert begins.",
            _drawing.Unit is { } unit ? $"The drawing's unit is {unit}." : "The drawing names no unit, so metres.",
        };
        if (_drawing.MergedCircles > 0)
            sentences.Add(string.Create(CultureInfo.InvariantCulture, $"{_drawing.MergedCircles} circles are taken together with the point or insert at their centre."));
        if (_drawing.Texts.Count > 0)
            sentences.Add("A text is taken to belong to the place it is clearly nearest to, within the usual spacing of the places.");
        if (_drawing.PassedOver.Count > 0)
            sentences.Add($"Not read of the drawing: {string.Join(", ", _drawing.PassedOver.OrderByDescending(kind => kind.Value).Take(10).Select(kind => string.Create(CultureInfo.InvariantCulture, $"{kind.Value} {ImportProblem.Shorten(kind.Key)}")))}.");
        return sentences;
    }

    public override IReadOnlyList<OpenQuestion> Questions(TableWay way) => _frame.Questions;

    public override string? Unanswered(TableWay way) => _frame.Unanswered;

    protected override IEnumerable<SourceRow> Rows(TableWay way)
    {
        string[] own = ["Layer", "Entity", "Block name", "Text"];
        yield return new SourceRow(0, [.. own, .. _frame.Beside(_tags.Select(tag => own.Contains(tag, StringComparer.OrdinalIgnoreCase) ? $"attribute {tag}" : tag)), _frame.First, _frame.Second, $"Z [{_unit}]", $"Diameter [{_unit}]"]);
        for (var index = 0; index < _drawing.Places.Count; index++)
        {
            var place = _drawing.Places[index];
            var cells = new string?[own.Length + _tags.Length + 4];
            (cells[0], cells[1], cells[2], cells[3]) = (place.Layer, place.Kind, place.Kind == "INSERT" ? place.Text : null, _texts[index]);
            foreach (var (tag, value) in place.Attributes)
            {
                var at = Array.FindIndex(_tags, known => string.Equals(known, tag, StringComparison.OrdinalIgnoreCase));
                if (at >= 0)
                    cells[own.Length + at] = value;
            }

            var end = own.Length + _tags.Length;
            (cells[end], cells[end + 1]) = place.IsFlat ? (Text(place.X), Text(place.Y)) : ("tilted plane", "tilted plane");
            cells[end + 2] = Text(place.Z);
            cells[end + 3] = place.Radius > 0 ? Text(2 * place.Radius) : null;
            yield return new SourceRow(place.Line, cells);
        }
    }

    private static string Text(double value)
        => Math.Abs(value) < 1e15 ? ((decimal)value).ToString("0.#########", CultureInfo.InvariantCulture) : value.ToString("R", CultureInfo.InvariantCulture);
}
