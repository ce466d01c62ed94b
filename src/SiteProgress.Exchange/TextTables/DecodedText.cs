using System.Buffers;
using System.Text;
using System.Text.Unicode;

namespace SiteProgress.Exchange.TextTables;

/// <summary>
/// Characters of a byte stream whose encoding is not stated: byte order marks, UTF-16 without one, UTF-8 where the
/// bytes are valid UTF-8, and otherwise Windows-1252. Holds one block of bytes, whatever the length of the stream.
/// </summary>
/// <remarks>
/// A file is taken as UTF-8 until the first byte that cannot be. Up to there Windows-1252 and UTF-8 read the same as
/// long as everything was ASCII, so the change of mind is exact; after genuine UTF-8 sequences such a byte becomes
/// U+FFFD, and the row that holds it is a problem.
/// </remarks>
internal sealed class DecodedText
{
    private const int BlockBytes = 64 * 1024;

    private readonly Stream _stream;
    private readonly CancellationToken _cancellation;
    private readonly byte[] _bytes = new byte[BlockBytes];
    private int _start;
    private int _end;
    private bool _streamEnded;
    private bool _sawMultiByte;
    private bool _sawNonAscii;
    private Decoder? _decoder;
    private string _name = "UTF-8";

    /// <param name="stream">Bytes, read from where the stream stands.</param>
    /// <param name="chosen">Name of the encoding a person chose; null: as the bytes show.</param>
    /// <param name="cancellation">Ends the reading.</param>
    public DecodedText(Stream stream, string? chosen, CancellationToken cancellation)
    {
        _stream = stream;
        _cancellation = cancellation;
        Fill();
        NotText = FileSignature.Describe(_bytes.AsSpan(0, _end));
        if (NotText is not null)
            return;
        if (chosen is not null && TextEncodings.Find(chosen) is { } encoding)
            TakeChosen(encoding, chosen);
        else
            ChooseEncoding();
    }

    /// <summary>What the file is, where it is not text at all; null for text.</summary>
    public string? NotText { get; }

    /// <summary>True where the stream has no bytes.</summary>
    public bool IsEmpty { get; private set; }

    /// <summary>Encoding in words, as known after what has been read so far.</summary>
    public string EncodingName => _name switch
    {
        "UTF-8" when !_sawNonAscii => "plain ASCII",
        _ => _name,
    };

    /// <summary>True where the bytes are not of one encoding that they show, after what has been read so far.</summary>
    public bool IsGuessed { get; private set; }

    /// <summary>Reads characters into a span.</summary>
    /// <param name="into">Where to; at least two characters.</param>
    /// <returns>Number of characters; 0 at the end.</returns>
    public int Read(Span<char> into)
    {
        if (NotText is not null)
            return 0;

        while (true)
        {
            _cancellation.ThrowIfCancellationRequested();
            if (_end - _start < 4)
                Fill();
            if (_start == _end && _decoder is null)
                return 0;

            var written = _decoder is null ? ReadUtf8(into) : ReadWith(_decoder, into);
            if (written > 0 || (_streamEnded && _start == _end))
                return written;
        }
    }

    private int ReadUtf8(Span<char> into)
    {
        var status = Utf8.ToUtf16(
            _bytes.AsSpan(_start, _end - _start), into, out var read, out var written,
            replaceInvalidSequences: false, isFinalBlock: _streamEnded);
        _start += read;
        _sawMultiByte |= written < read;
        _sawNonAscii |= written < read;
        if (status != OperationStatus.InvalidData || written > 0)
            return written;

        _sawNonAscii = true;
        if (!_sawMultiByte)
        {
            _decoder = CodePagesEncodingProvider.Instance.GetEncoding(1252)!.GetDecoder();
            _name = "Windows-1252 (the bytes are not valid UTF-8)";
            IsGuessed = true;
            return ReadWith(_decoder, into);
        }

        _start++;
        IsGuessed = true;
        into[0] = '\uFFFD';
        return 1;
    }

    private int ReadWith(Decoder decoder, Span<char> into)
    {
        decoder.Convert(
            _bytes.AsSpan(_start, _end - _start), into, flush: _streamEnded, out var used, out var written, out _);
        _start += used;
        return written;
    }

    private void ChooseEncoding()
    {
        IsEmpty = _end == 0;
        var head = _bytes.AsSpan(0, _end);
        if (head.StartsWith((ReadOnlySpan<byte>)[0xEF, 0xBB, 0xBF]))
        {
            (_start, _name, _sawMultiByte, _sawNonAscii) = (3, "UTF-8 with byte order mark", true, true);
            return;
        }

        if (head.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE, 0, 0]))
            Take(new UTF32Encoding(false, true), 4, "UTF-32, little end first");
        else if (head.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE]))
            Take(Encoding.Unicode, 2, "UTF-16, little end first");
        else if (head.StartsWith((ReadOnlySpan<byte>)[0xFE, 0xFF]))
            Take(Encoding.BigEndianUnicode, 2, "UTF-16, big end first");
        else if (LooksLikeUtf16(head, zeroAt: 1))
            Take(Encoding.Unicode, 0, "UTF-16, little end first, without byte order mark");
        else if (LooksLikeUtf16(head, zeroAt: 0))
            Take(Encoding.BigEndianUnicode, 0, "UTF-16, big end first, without byte order mark");
    }

    private void TakeChosen(Encoding encoding, string name)
    {
        IsEmpty = _end == 0;
        var mark = encoding.GetPreamble();
        var skip = mark.Length > 0 && _bytes.AsSpan(0, _end).StartsWith(mark) ? mark.Length : 0;
        Take(encoding, skip, $"{TextEncodings.Words(name)}, as chosen");
    }

    private void Take(Encoding encoding, int skip, string name)
        => (_decoder, _start, _name, _sawNonAscii) = (encoding.GetDecoder(), skip, name, true);

    /// <summary>Tables are mostly digits and Latin letters: in UTF-16 every second byte of these is zero, and no other.</summary>
    private static bool LooksLikeUtf16(ReadOnlySpan<byte> head, int zeroAt)
    {
        var pairs = Math.Min(head.Length, 2_000) / 2;
        int zeros = 0, wrong = 0;
        for (var pair = 0; pair < pairs; pair++)
        {
            zeros += head[(2 * pair) + zeroAt] == 0 ? 1 : 0;
            wrong += head[(2 * pair) + 1 - zeroAt] == 0 ? 1 : 0;
        }

        return pairs >= 2 && wrong == 0 && zeros >= 0.7 * pairs;
    }

    private void Fill()
    {
        if (_streamEnded)
            return;

        _bytes.AsSpan(_start, _end - _start).CopyTo(_bytes);
        (_start, _end) = (0, _end - _start);
        // One read of a slow sender may bring a few bytes; the encoding is judged on a full block.
        while (_end < _bytes.Length)
        {
            _cancellation.ThrowIfCancellationRequested();
            var read = _stream.Read(_bytes.AsSpan(_end));
            if (read == 0)
            {
                _streamEnded = true;
                return;
            }

            _end += read;
        }
    }
}
