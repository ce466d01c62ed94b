namespace SiteProgress.Exchange.TextTables;

/// <summary>A text whose beginning can be looked at before it is read through.</summary>
internal sealed class SampledText
{
    private const int SampleCharacters = 128 * 1024;

    private readonly DecodedText _text;
    private readonly char[] _sample = new char[8 * 1024];
    private readonly bool _isWhole;
    private readonly int _sampleLength;
    private int _replayed;

    /// <param name="stream">Bytes, read from where the stream stands.</param>
    /// <param name="encoding">Name of the encoding a person chose; null: as the bytes show.</param>
    /// <param name="cancellation">Ends the reading.</param>
    public SampledText(Stream stream, string? encoding, CancellationToken cancellation)
    {
        _text = new DecodedText(stream, encoding, cancellation);
        while (_sampleLength < SampleCharacters - 1)
        {
            // Most batches are small: the array grows only as far as the text goes.
            if (_sampleLength >= _sample.Length - 1)
                Array.Resize(ref _sample, 2 * _sample.Length);
            var read = _text.Read(_sample.AsSpan(_sampleLength));
            _isWhole = read == 0;
            if (_isWhole)
                break;
            _sampleLength += read;
        }
    }

    /// <summary>What the file is, where it is not text; null for text.</summary>
    public string? NotText => _text.NotText;

    /// <summary>True where nothing but blanks stands in the sample and nothing follows it.</summary>
    public bool IsBlank => _isWhole && _sample.AsSpan(0, _sampleLength).IsWhiteSpace();

    /// <summary>Encoding in words.</summary>
    public string EncodingName => _text.EncodingName;

    /// <summary>True where the bytes show only which encoding it is not.</summary>
    public bool EncodingIsGuessed => _text.IsGuessed;

    /// <summary>A splitter over the beginning of the text only.</summary>
    /// <param name="delimiter">Delimiter to try.</param>
    public RecordSplitter SplitSample(char delimiter) => new(_sample, _sampleLength, delimiter);

    /// <summary>A splitter over the whole text. It can be made once.</summary>
    /// <param name="delimiter">Delimiter of the text.</param>
    public RecordSplitter SplitAll(char delimiter) => _isWhole ? SplitSample(delimiter) : new(ReadOn, delimiter);

    private int ReadOn(char[] buffer, int offset, int count)
    {
        if (_replayed == _sampleLength)
            return _text.Read(buffer.AsSpan(offset, count));

        var length = Math.Min(count, _sampleLength - _replayed);
        _sample.AsSpan(_replayed, length).CopyTo(buffer.AsSpan(offset));
        _replayed += length;
        return length;
    }
}
