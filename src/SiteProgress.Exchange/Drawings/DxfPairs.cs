using System.Globalization;
using System.Text;
using SiteProgress.Exchange.Sources;
using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.Drawings;

/// <summary>
/// The pairs of a drawing exchange text: a line with a group code, a line with its value. One pair is held at a time, and no
/// line longer than the format allows.
/// </summary>
internal sealed class DxfPairs
{
    // The format's reference: a text value has at most 2049 bytes, longer ones are parted.
    private const int LongestLine = 4096;

    private readonly DecodedText _text;
    private readonly char[] _buffer = new char[32 * 1024];
    private readonly StringBuilder _lineText = new();
    private readonly CancellationToken _cancellation;
    private int _start;
    private int _end;
    private bool _again;

    /// <param name="stream">The text.</param>
    /// <param name="encoding">Encoding a person chose, or null.</param>
    /// <param name="cancellation">Ends the reading.</param>
    public DxfPairs(Stream stream, string? encoding, CancellationToken cancellation)
    {
        (_text, _cancellation) = (new DecodedText(stream, encoding, cancellation), cancellation);
        if (_text.NotText is not null)
            throw new BrokenFileException("a drawing exchange text (DXF) in ASCII; this is a binary one");
    }

    /// <summary>Line of the group code, from 1.</summary>
    public long Line { get; private set; }

    /// <summary>Group code.</summary>
    public int Code { get; private set; }

    /// <summary>Value, without blanks around it.</summary>
    public string Value { get; private set; } = "";

    private long _lines;

    /// <summary>Goes to the next pair.</summary>
    /// <returns>False at the end of the text.</returns>
    public bool Next()
    {
        if (_again)
        {
            _again = false;
            return true;
        }

        do
        {
            if (ReadLine() is not { } code)
                return false;
            Line = _lines;
            if (!int.TryParse(code.Trim(), NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var number))
            {
                throw new BrokenFileException(string.Create(
                    CultureInfo.InvariantCulture, $"a group code on line {Line} of the drawing; it has \u201C{ImportProblem.Shorten(code)}\u201D"));
            }

            Code = number;
            Value = ReadLine()?.Trim() ?? throw new BrokenFileException("a drawing that ends after the value of a group code; this one is cut off");
        }
        while (Code == 999);
        return true;
    }

    /// <summary>Makes the next call of <see cref="Next"/> give this pair once more.</summary>
    public void GoBack() => _again = true;

    /// <summary>The value as a number; null where it is none.</summary>
    public double? Number
        => double.TryParse(Value, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value) ? value : null;

    private string? ReadLine()
    {
        _lineText.Clear();
        while (true)
        {
            if (_start == _end)
            {
                _cancellation.ThrowIfCancellationRequested();
                (_start, _end) = (0, _text.Read(_buffer));
                if (_end == 0)
                    return _lineText.Length == 0 ? null : Finish();
            }

            var found = _buffer.AsSpan(_start, _end - _start).IndexOf('\n');
            var length = found < 0 ? _end - _start : found;
            if (_lineText.Length + length > LongestLine)
                throw new BrokenFileException(string.Create(CultureInfo.InvariantCulture, $"a drawing whose lines have at most {LongestLine} characters; line {_lines + 1} is longer"));
            _lineText.Append(_buffer, _start, length);
            _start += found < 0 ? length : length + 1;
            if (found >= 0)
                return Finish();
        }
    }

    private string Finish()
    {
        _lines++;
        return _lineText.ToString().TrimEnd('\r');
    }
}
