using System.Buffers;
using SiteProgress.Exchange.Sources;

namespace SiteProgress.Exchange.TextTables;

/// <summary>What was met where a record of the table was looked for.</summary>
internal enum RecordState
{
    /// <summary>A record, split into cells.</summary>
    Good,

    /// <summary>The end of the text.</summary>
    End,

    /// <summary>Text follows a closing quotation mark in the same cell.</summary>
    TextAfterQuote,

    /// <summary>A quotation mark is opened and not closed within the longest record, or before the end.</summary>
    QuoteNotClosed,

    /// <summary>The line is longer than the longest record.</summary>
    TooLong,

    /// <summary>The line has more cells than the most allowed.</summary>
    TooManyCells,

    /// <summary>The file cannot be read on.</summary>
    Broken,
}

/// <summary>
/// Splits text into records and cells as RFC 4180 section 2 describes, with any one-character delimiter, line ends CR LF,
/// LF or CR, and a bound on the length of a record, so that no input makes it hold more than that.
/// After a broken record it goes on at the line after the one on which that record begins: a lost quotation mark costs one
/// line, not the rest of the file.
/// </summary>
/// <remarks>
/// A library was considered (Sep). It is faster, but it ends with an exception where this must name the line and go on,
/// and its buffer grows with the longest line. The tests compare the two on good tables.
/// </remarks>
internal sealed class RecordSplitter : IRecords
{
    /// <summary>Longest record in characters, line ends within quotation marks included.</summary>
    public const int LongestRecord = 64 * 1024;

    /// <summary>Most cells of a record.</summary>
    public const int MostCells = 256;

    private readonly Func<char[], int, int, int>? _read;
    private readonly char _delimiter;
    private readonly SearchValues<char> _stops;
    private readonly char[] _buffer;
    private readonly CellBounds[] _cells = new CellBounds[MostCells];
    private int _start;
    private int _end;
    private int _cellCount;
    private bool _textEnded;
    private bool _skipLineFeed;
    private long _line = 1;
    private long _nextLine = 1;

    /// <param name="read">Fills part of a buffer (buffer, offset, count) and returns how much; 0 at the end.</param>
    /// <param name="delimiter">Delimiter of cells.</param>
    public RecordSplitter(Func<char[], int, int, int> read, char delimiter)
    {
        _read = read;
        _buffer = new char[2 * LongestRecord];
        _delimiter = delimiter;
        _stops = SearchValues.Create([delimiter, '\n', '\r']);
    }

    /// <param name="text">A text that is in memory; it is not copied.</param>
    /// <param name="length">Its length.</param>
    /// <param name="delimiter">Delimiter of cells.</param>
    public RecordSplitter(char[] text, int length, char delimiter)
    {
        (_buffer, _end, _textEnded) = (text, length, true);
        _delimiter = delimiter;
        _stops = SearchValues.Create([delimiter, '\n', '\r']);
    }

    /// <summary>Line on which the record begins, counted from 1.</summary>
    public long Line => _line;

    /// <summary>Number of cells of the record.</summary>
    public int CellCount => _cellCount;

    /// <summary>True where the record is the last of the text and no line end follows it.</summary>
    public bool EndsWithoutLineEnd { get; private set; }

    /// <summary>First characters of a broken record, for the message.</summary>
    public string Beginning { get; private set; } = "";

    /// <summary>True where the first cell stands in quotation marks.</summary>
    public bool FirstCellQuoted => _cellCount > 0 && _cells[0].Quoted;

    /// <inheritdoc />
    public bool MayBeShort => false;

    /// <inheritdoc />
    public string? Broken => null;

    /// <summary>One cell as written between its delimiters or quotation marks; doubled quotation marks made single.</summary>
    /// <param name="index">Number of the cell, from 0.</param>
    public ReadOnlySpan<char> Cell(int index)
    {
        var cell = _cells[index];
        var text = _buffer.AsSpan(cell.Start, cell.Length);
        return cell.DoubledQuotes ? text.ToString().Replace("\"\"", "\"", StringComparison.Ordinal) : text;
    }

    /// <summary>Goes to the next record.</summary>
    /// <returns>What was met.</returns>
    public RecordState Next()
    {
        _line = _nextLine;
        _cellCount = 0;
        EndsWithoutLineEnd = false;
        if (_end - _start <= LongestRecord)
            Fill();
        if (_skipLineFeed && _start < _end && _buffer[_start] == '\n')
            _start++;
        _skipLineFeed = false;
        return _start == _end ? RecordState.End : Split();
    }

    private RecordState Split()
    {
        var limit = Math.Min(_end, _start + LongestRecord);
        var position = _start;
        while (true)
        {
            if (_cellCount == MostCells)
                return Break(RecordState.TooManyCells);

            var state = position < limit && _buffer[position] == '"'
                ? QuotedCell(ref position, limit)
                : PlainCell(ref position, limit);
            if (state is not RecordState.Good)
                return Break(state);
            if (position == limit)
                return limit == _end ? Finish(position, atEnd: true) : Break(RecordState.TooLong);
            if (_buffer[position] != _delimiter)
                return Finish(position, atEnd: false);
            position++;
        }
    }

    private RecordState PlainCell(ref int position, int limit)
    {
        var found = _buffer.AsSpan(position, limit - position).IndexOfAny(_stops);
        var stop = found < 0 ? limit : position + found;
        _cells[_cellCount++] = new CellBounds(position, stop - position, Quoted: false, DoubledQuotes: false);
        position = stop;
        return RecordState.Good;
    }

    private RecordState QuotedCell(ref int position, int limit)
    {
        var first = position + 1;
        var doubled = false;
        var scan = first;
        while (true)
        {
            var found = _buffer.AsSpan(scan, limit - scan).IndexOf('"');
            if (found < 0)
                return RecordState.QuoteNotClosed;

            var quote = scan + found;
            if (quote + 1 < limit && _buffer[quote + 1] == '"')
            {
                doubled = true;
                scan = quote + 2;
                continue;
            }

            _cells[_cellCount++] = new CellBounds(first, quote - first, Quoted: true, doubled);
            position = quote + 1;
            var stands = position == limit || _buffer[position] == _delimiter || _buffer[position] is '\n' or '\r';
            return stands ? RecordState.Good : RecordState.TextAfterQuote;
        }
    }

    private RecordState Finish(int position, bool atEnd)
    {
        EndsWithoutLineEnd = atEnd;
        _nextLine = _line + LineEndsIn(_buffer.AsSpan(_start, position - _start));
        if (!atEnd)
        {
            _nextLine++;
            position += LineEndLength(position);
        }

        _start = position;
        return RecordState.Good;
    }

    /// <summary>Leaves a broken record: goes on after the first line end behind its beginning.</summary>
    private RecordState Break(RecordState state)
    {
        _cellCount = 0;
        var text = _buffer.AsSpan(_start, Math.Min(_end, _start + LongestRecord) - _start);
        var lineEnd = text.IndexOfAny('\n', '\r');
        Beginning = text[..Math.Min(lineEnd < 0 ? text.Length : lineEnd, 200)].ToString();
        if (state is RecordState.QuoteNotClosed && lineEnd < 0 && _end - _start > LongestRecord)
            state = RecordState.TooLong;
        EndsWithoutLineEnd = lineEnd < 0 && _end - _start <= LongestRecord;
        SkipLine();
        return state;
    }

    private void SkipLine()
    {
        while (true)
        {
            var found = _buffer.AsSpan(_start, _end - _start).IndexOfAny('\n', '\r');
            if (found >= 0)
            {
                _start += found;
                _start += LineEndLength(_start);
                _nextLine = _line + 1;
                return;
            }

            _start = _end;
            Fill();
            if (_start == _end)
                return;
        }
    }

    /// <summary>Length of the line end at a position. Where CR is the last character held, a LF behind it is skipped later.</summary>
    private int LineEndLength(int position)
    {
        if (_buffer[position] == '\n')
            return 1;
        _skipLineFeed = position + 1 == _end;
        return !_skipLineFeed && _buffer[position + 1] == '\n' ? 2 : 1;
    }

    private static int LineEndsIn(ReadOnlySpan<char> text)
    {
        var count = 0;
        while (text.IndexOfAny('\n', '\r') is var found && found >= 0)
        {
            count++;
            var pair = text[found] == '\r' && found + 1 < text.Length && text[found + 1] == '\n';
            text = text[(found + (pair ? 2 : 1))..];
        }

        return count;
    }

    private void Fill()
    {
        if (_textEnded)
            return;

        _buffer.AsSpan(_start, _end - _start).CopyTo(_buffer);
        (_start, _end) = (0, _end - _start);
        // The source may need room for two characters at once, so the last place stays free.
        while (_end < _buffer.Length - 1)
        {
            var read = _read!(_buffer, _end, _buffer.Length - _end);
            if (read == 0)
            {
                _textEnded = true;
                return;
            }

            _end += read;
        }
    }

    private readonly record struct CellBounds(int Start, int Length, bool Quoted, bool DoubledQuotes);
}
