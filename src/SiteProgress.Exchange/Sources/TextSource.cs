using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.Sources;

/// <summary>A text whose cells are parted by a delimiter.</summary>
internal sealed class TextSource : TableSource
{
    private static readonly char[] Delimiters = [';', '\t', ','];

    private readonly Stream _stream;
    private readonly long _begin;
    private readonly string? _encoding;
    private readonly CancellationToken _cancellation;
    private SampledText _text;
    private bool _used;

    /// <param name="stream">Bytes, read from where the stream stands.</param>
    /// <param name="choices">Delimiter and encoding a person chose.</param>
    /// <param name="cancellation">Ends the reading.</param>
    public TextSource(Stream stream, ReadingChoices choices, CancellationToken cancellation)
    {
        (_stream, _cancellation, _encoding) = (stream, cancellation, choices.Encoding);
        _begin = stream.CanSeek ? stream.Position : 0;
        _text = new SampledText(stream, _encoding, cancellation);
        char[] delimiters = choices.Delimiter is { } one ? [one] : Delimiters;
        Ways = [.. delimiters.Select(delimiter => new TableWay(0, null, delimiter))];
        Refusal = _text switch
        {
            { NotText: { } what } => $"a text table (CSV); this is {what}",
            { IsBlank: true } => "a table; the file is empty",
            _ => null,
        };
    }

    public override IReadOnlyList<TableWay> Ways { get; }

    public override IReadOnlyList<TableWay> ExcludedWays
        => [.. Delimiters.Select(delimiter => new TableWay(0, null, delimiter)).Where(way => !Ways.Contains(way))];

    public override bool IsText => true;

    public override bool CanBeReadAgain => _stream.CanSeek;

    public override IRecords Beginning(TableWay way) => _text.SplitSample(way.Delimiter);

    public override IRecords All(TableWay way)
    {
        if (_used && CanBeReadAgain)
        {
            _stream.Position = _begin;
            _text = new SampledText(_stream, _encoding, _cancellation);
        }

        _used = true;
        return _text.SplitAll(way.Delimiter);
    }

    public override string Describe(TableWay way) => $"{_text.EncodingName}, {Words(way.Delimiter)} as delimiter";

    public override IReadOnlyList<OpenQuestion> Questions(TableWay way) => _encoding is null && _text.EncodingIsGuessed
        ? [new OpenQuestion(QuestionKind.Encoding, "The bytes are not valid UTF-8 and name no encoding. Look at letters outside ASCII in the first rows: are they right?")]
        : [];

    /// <summary>A delimiter in words.</summary>
    /// <param name="delimiter">The delimiter.</param>
    public static string Words(char delimiter) => delimiter switch
    {
        ';' => "semicolon",
        ',' => "comma",
        '\t' => "tab",
        _ => $"\u201C{delimiter}\u201D",
    };
}
