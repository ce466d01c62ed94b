namespace SiteProgress.Exchange.TextTables;

/// <summary>A text whose beginning can be looked at before it is read through.</summary>
internal sealed class SampledText
{
    private const int SampleCharacters = 128 * 1024;

    private readonly DecodedText _text;
    private readonly char[] _sample = new char[SampleCharacters];
    private readonly int _sampleLength;
    private int _replayed;

    /// <param name="stream">Bytes, read from where the stream stands.</param>
    /// <param name="cancellation">Ends the reading.</param>
    public SampledText(Stream stream, CancellationToken cancellation)
    {
        _text = new DecodedText(stream, cancellation);
        while (_sampleLength < SampleCharacters - 1)
        {
            var read = _text.Read(_sample.AsSpan(_sampleLength));
            if (read == 0)
                break;
            _sampleLength += read;
        }
    }

    /// <summary>What the file is, where it is not text; null for text.</summary>
    public string? NotText => _text.NotText;

    /// <summary>True where nothing but blanks stands in the sample and nothing follows it.</summary>
    public bool IsBlank => _sampleLength < SampleCharacters - 1 && _sample.AsSpan(0, _sampleLength).IsWhiteSpace();

    /// <summary>Encoding in words.</summary>
    public string EncodingName => _text.EncodingName;

    /// <summary>A splitter over the beginning of the text only.</summary>
    /// <param name="delimiter">Delimiter to try.</param>
    public RecordSplitter SplitSample(char delimiter)
    {
        var position = 0;
        return new RecordSplitter(
            (buffer, offset, count) => Copy(ref position, buffer, offset, count), delimiter);
    }

    /// <summary>A splitter over the whole text. It can be made once.</summary>
    /// <param name="delimiter">Delimiter of the text.</param>
    public RecordSplitter SplitAll(char delimiter) => new(ReadOn, delimiter);

    private int ReadOn(char[] buffer, int offset, int count)
        => Copy(ref _replayed, buffer, offset, count) is var copied and > 0
            ? copied
            : _text.Read(buffer.AsSpan(offset, count));

    private int Copy(ref int position, char[] buffer, int offset, int count)
    {
        var length = Math.Min(count, _sampleLength - position);
        _sample.AsSpan(position, length).CopyTo(buffer.AsSpan(offset));
        position += length;
        return length;
    }
}
