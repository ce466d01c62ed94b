using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.Sources;

/// <summary>A file of a format that is no text: its rows are made one after the other, its first rows are kept.</summary>
/// <param name="format">The format in words.</param>
/// <param name="cancellation">Ends the reading.</param>
internal abstract class RowSource(string format, CancellationToken cancellation) : TableSource
{
    private const int RowsOfBeginning = 60;

    private readonly Dictionary<int, (SourceRow[] Rows, string? Broken)> _beginnings = [];

    /// <inheritdoc />
    public override IRecords Beginning(TableWay way)
    {
        if (!_beginnings.TryGetValue(way.Table, out var beginning))
            _beginnings[way.Table] = beginning = ReadBeginning(way);
        var (rows, broken) = beginning;
        return new RowRecords(broken is null ? rows : rows.Concat(Break(broken)), format, cancellation);
    }

    /// <inheritdoc />
    public override IRecords All(TableWay way) => new RowRecords(Begun(way), format, cancellation);

    /// <summary>All rows of a table, a row of titles first where the format names its columns itself.</summary>
    /// <param name="way">The table.</param>
    protected abstract IEnumerable<SourceRow> Rows(TableWay way);

    private (SourceRow[] Rows, string? Broken) ReadBeginning(TableWay way)
    {
        var rows = new List<SourceRow>();
        var records = new RowRecords(Begun(way).Take(RowsOfBeginning).Select(Keep), format, cancellation);
        var state = records.Next();
        while (state is not (RecordState.End or RecordState.Broken))
            state = records.Next();
        return ([.. rows], records.Broken);

        SourceRow Keep(SourceRow row)
        {
            rows.Add(row);
            return row;
        }
    }

    /// <summary>The rows, made from the first on only when they are asked for: what breaks before the first row breaks the table too.</summary>
    private IEnumerable<SourceRow> Begun(TableWay way)
    {
        foreach (var row in Rows(way))
            yield return row;
    }

    private static IEnumerable<SourceRow> Break(string expected)
    {
        yield return expected.Length == 0 ? default : throw new BrokenFileException(expected);
    }
}
