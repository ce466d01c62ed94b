using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using SiteProgress.Exchange.Sources;
using SiteProgress.Exchange.TextTables;
using SiteProgress.Exchange.Workbooks;

namespace SiteProgress.Exchange.MapFiles;

/// <summary>Point features of GeoJSON (RFC 7946) as a table: properties as columns, the point as two more.</summary>
internal sealed partial class GeoJsonSource : RowSource
{
    /// <summary>The format in words.</summary>
    public const string Format = "GeoJSON text";

    private static readonly TableWay Only = new(0, null, '\0');

    private readonly Stream _stream;
    private readonly long _begin;
    private readonly CancellationToken _cancellation;
    private readonly List<string> _properties = [];
    private readonly MapFrame _frame;
    private readonly long _features;

    /// <param name="stream">The text.</param>
    /// <param name="choices">Frame a person chose.</param>
    /// <param name="cancellation">Ends the reading.</param>
    public GeoJsonSource(Stream stream, ReadingChoices choices, CancellationToken cancellation)
        : base(Format, cancellation)
    {
        (_stream, _begin, _cancellation) = (stream, stream.Position, cancellation);
        using var features = Survey(out var likeDegrees);
        _features = features.Count;
        var stated = EpsgOf(features.Crs);
        // RFC 7946 section 4: longitude and latitude on WGS 84, and no member "crs"; older texts have one.
        _frame = features.Crs is not null
            ? MapFrame.Decide(choices, stated, $"its member \u201Ccrs\u201D says {features.Crs}")
            : MapFrame.Decide(choices, likeDegrees ? 4326 : null, likeDegrees ? "GeoJSON knows no other frame (RFC 7946, section 4)" : "GeoJSON has longitude and latitude (RFC 7946, section 4), and these numbers are neither");
        Refusal = features.Type is not "FeatureCollection" ? $"GeoJSON with \u201Ctype\u201D: \u201CFeatureCollection\u201D; this one is {ImportProblem.Shorten(features.Type ?? "without a type")}"
            : _features == 0 ? "GeoJSON with at least one feature" : null;
    }

    public override IReadOnlyList<TableWay> Ways => [Only];

    public override string Describe(TableWay way) => string.Create(CultureInfo.InvariantCulture, $"{Format} of {_features} features");

    public override IReadOnlyList<string> Assumptions(TableWay way)
        => ["Lines are numbers of features.", .. _frame.Assumption is { } sentence ? [sentence] : Array.Empty<string>()];

    public override IReadOnlyList<OpenQuestion> Questions(TableWay way) => _frame.Questions;

    public override string? Unanswered(TableWay way) => _frame.Unanswered;

    protected override IEnumerable<SourceRow> Rows(TableWay way)
    {
        yield return new SourceRow(0, [.. _frame.Beside(_properties), _frame.First, _frame.Second]);
        _stream.Position = _begin;
        using var features = new JsonFeatures(_stream);
        while (features.TryNext(out var feature))
        {
            var cells = new string?[_properties.Count + 2];
            if (feature.TryGetProperty("properties", out var properties) && properties.ValueKind is JsonValueKind.Object)
            {
                foreach (var property in properties.EnumerateObject())
                    cells[_properties.IndexOf(property.Name)] = TextOf(property.Value);
            }

            (cells[^2], cells[^1]) = PointOf(feature);
            yield return new SourceRow(features.Count, cells);
        }
    }

    /// <summary>Reads the text once through: which properties there are, which frame it states, and whether its numbers can be degrees.</summary>
    private JsonFeatures Survey(out bool likeDegrees)
    {
        var features = new JsonFeatures(_stream);
        likeDegrees = true;
        while (features.TryNext(out var feature))
        {
            if ((features.Count & 1023) == 0)
                _cancellation.ThrowIfCancellationRequested();
            if (feature.TryGetProperty("properties", out var properties) && properties.ValueKind is JsonValueKind.Object)
                Survey(properties);
            var (first, second) = PointOf(feature);
            likeDegrees &= IsWithin(first, 180) && IsWithin(second, 90);
        }

        return features;
    }

    private void Survey(JsonElement properties)
    {
        foreach (var property in properties.EnumerateObject())
        {
            if (_properties.Contains(property.Name))
                continue;
            _properties.Add(property.Name);
            if (_properties.Count > RecordSplitter.MostCells - 2)
                throw new BrokenFileException(string.Create(CultureInfo.InvariantCulture, $"features with at most {RecordSplitter.MostCells - 2} properties"));
        }
    }

    /// <summary>The two numbers of a point; the name of another geometry in their place, so that the row is told with it.</summary>
    private static (string? First, string? Second) PointOf(JsonElement feature)
    {
        if (!feature.TryGetProperty("geometry", out var geometry) || geometry.ValueKind is not JsonValueKind.Object)
            return (null, null);
        var type = geometry.TryGetProperty("type", out var name) && name.ValueKind is JsonValueKind.String ? name.GetString()! : "no type";
        if (!geometry.TryGetProperty("coordinates", out var coordinates) || coordinates.ValueKind is not JsonValueKind.Array)
            return (type, null);
        if (type == "MultiPoint" && coordinates.GetArrayLength() == 1 && coordinates[0].ValueKind is JsonValueKind.Array)
            (type, coordinates) = ("Point", coordinates[0]);
        if (type != "Point" || coordinates.GetArrayLength() is < 2 or > 4)
            return (type, type);
        return (TextOf(coordinates[0]), TextOf(coordinates[1]));
    }

    private static string? TextOf(JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.Null or JsonValueKind.Undefined => null,
        JsonValueKind.String => value.GetString(),
        JsonValueKind.Number => CellDates.PlainNumber(value.GetRawText()) ?? value.GetRawText(),
        JsonValueKind.True => "TRUE",
        JsonValueKind.False => "FALSE",
        _ => ImportProblem.Shorten(value.GetRawText()),
    };

    private static bool IsWithin(string? text, double most)
        => text is null || !double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) || !double.IsFinite(value) || Math.Abs(value) <= most;

    private static int? EpsgOf(string? crs)
    {
        if (crs is null)
            return null;
        // CRS84 and ETRS89 are longitude and latitude too.
        if (crs.Contains("CRS84", StringComparison.OrdinalIgnoreCase))
            return 4326;
        return EpsgCode().Match(crs) is { Success: true } match && int.TryParse(match.Groups[1].ValueSpan, NumberStyles.None, CultureInfo.InvariantCulture, out var code)
            ? code
            : null;
    }

    [GeneratedRegex("EPSG:{1,2}(?:[0-9.]*:)?([0-9]{4,6})", RegexOptions.IgnoreCase)]
    private static partial Regex EpsgCode();
}
