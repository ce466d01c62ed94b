using System.Text.Json;
using System.Xml;
using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.Sources;

/// <summary>One row of a format that is no text.</summary>
/// <param name="Line">Row of the sheet, number of the feature, or line of the file.</param>
/// <param name="Cells">Its cells; null is an empty one.</param>
internal readonly record struct SourceRow(long Line, IReadOnlyList<string?> Cells);

/// <summary>Thrown where a file cannot be read on; its message says what was expected, for a person.</summary>
internal sealed class BrokenFileException(string expected) : Exception(expected);

/// <summary>Rows of any format as records. What breaks while they are made ends them with the reason.</summary>
/// <param name="rows">The rows, made as they are asked for.</param>
/// <param name="format">What the file is, in words, for the message where it breaks.</param>
/// <param name="cancellation">Ends the reading.</param>
internal sealed class RowRecords(IEnumerable<SourceRow> rows, string format, CancellationToken cancellation) : IRecords
{
    private IEnumerator<SourceRow>? _rows;
    private SourceRow _row = new(0, []);

    public long Line => _row.Line;

    public int CellCount => _row.Cells.Count;

    public bool EndsWithoutLineEnd => false;

    public string Beginning => _row.Cells.FirstOrDefault(cell => !string.IsNullOrWhiteSpace(cell)) ?? "";

    public bool FirstCellQuoted => true;

    public bool MayBeShort => true;

    public string? Broken { get; private set; }

    public ReadOnlySpan<char> Cell(int index) => _row.Cells[index];

    public RecordState Next()
    {
        if (Broken is not null)
            return RecordState.Broken;
        cancellation.ThrowIfCancellationRequested();
        try
        {
            _rows ??= rows.GetEnumerator();
            if (_rows.MoveNext())
            {
                _row = _rows.Current;
                return _row.Cells.Count > RecordSplitter.MostCells ? RecordState.TooManyCells : RecordState.Good;
            }
        }
        catch (Exception exception) when (Expectation(exception, format) is not null)
        {
            Broken = Expectation(exception, format);
            return RecordState.Broken;
        }

        _rows.Dispose();
        return RecordState.End;
    }

    /// <summary>What was expected where reading a file failed for its content; null for a failure that is not the file's.</summary>
    /// <param name="exception">What was thrown.</param>
    /// <param name="format">What the file is, in words.</param>
    public static string? Expectation(Exception exception, string format) => exception switch
    {
        BrokenFileException => exception.Message,
        JsonException or XmlException or InvalidDataException or EndOfStreamException or FormatException or OverflowException
            or NotSupportedException or ArgumentException or IOException { InnerException: null }
            or InvalidOperationException { InnerException: System.Text.DecoderFallbackException }
            => $"a whole {format}; it cannot be read on here and seems to be damaged or cut off",
        _ => null,
    };
}
