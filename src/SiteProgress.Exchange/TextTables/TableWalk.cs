using System.Globalization;

namespace SiteProgress.Exchange.TextTables;

/// <summary>Reads a text table from its first byte to its last row. Bad content becomes problems, never an exception.</summary>
/// <typeparam name="T">What a row describes.</typeparam>
internal sealed class TableWalk<T>
    where T : class
{
    private readonly ReadingChoices _choices;
    private readonly TableLayout _layout;
    private readonly IReadOnlyList<TableLayout> _otherLayouts;
    private readonly ProblemList _problems;
    private readonly ProblemList _warnings;
    private readonly List<ReadRow<T>> _rows = [];
    private readonly List<long> _linesLeftOut = [];
    private readonly List<string> _assumptions = [];
    private ImportProblem[] _refusals = [];
    private int _rowsRead;
    private int _blankRows;
    private int _commentLines;

    private TableWalk(ReadingChoices choices, TableLayout layout, IReadOnlyList<TableLayout> otherLayouts)
    {
        (_choices, _layout, _otherLayouts) = (choices, layout, otherLayouts);
        _problems = new ProblemList(choices.MostProblems);
        _warnings = new ProblemList(choices.MostProblems);
    }

    /// <summary>Reads a file.</summary>
    /// <param name="stream">The bytes; read once, twice where dates or numbers need a look at the whole file and the stream can go back.</param>
    /// <param name="choices">What to read with.</param>
    /// <param name="layout">Columns of this kind of file.</param>
    /// <param name="readRow">Makes a value of a row's cells; null where there is none.</param>
    /// <param name="cancellation">Ends the reading.</param>
    public static TableReading<T> Read(
        Stream stream, ReadingChoices choices, TableLayout layout, Func<RowCells, T?> readRow, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(choices);
        var walk = new TableWalk<T>(choices, layout, Layouts.All(choices.GridAxes));
        walk.Run(stream, readRow, cancellation);
        return walk.Result();
    }

    private void Run(Stream stream, Func<RowCells, T?> readRow, CancellationToken cancellation)
    {
        var begin = stream.CanSeek ? stream.Position : 0;
        var text = new SampledText(stream, cancellation);
        if (Unusable(text) is { } unusable)
        {
            Refuse(0, null, unusable);
            return;
        }

        if (FindHeader(text) is not { } found)
            return;

        var (header, delimiter) = found;
        var evidence = GatherEvidence(stream, begin, ref text, header, delimiter, cancellation);
        if (DatesRefused(evidence))
            return;

        TellLinesAbove(text, header, delimiter);
        var splitter = text.SplitAll(delimiter);
        var cells = new RowCells(splitter, header, _choices, evidence, _problems, _warnings);
        Walk(splitter, header, delimiter, cells, readRow, cancellation);
        Tell(text, header, delimiter, evidence, cells);
    }

    private static string? Unusable(SampledText text) => text switch
    {
        { NotText: { } what } => $"a text table (CSV); this is {what}",
        { IsBlank: true } => "a table; the file is empty",
        _ => null,
    };

    private (TableHeader Header, char Delimiter)? FindHeader(SampledText text)
    {
        if (HeaderSearch.Find(text, _layout, _choices.Delimiter) is not { } found)
        {
            var elsewhere = _choices.Delimiter is null ? null : HeaderSearch.Find(text, _layout, null);
            Refuse(0, HeaderSearch.FirstLine(text), elsewhere is { } other
                ? $"the delimiter {Words(_choices.Delimiter!.Value)} as chosen; the file has a header with {Words(other.Delimiter)} on line {other.Header.Line.ToString(CultureInfo.InvariantCulture)}"
                : $"a header with the column titles of {_layout.Title} ({Wanted()}), parted by comma, semicolon or tab{KindHint(text)}");
            return null;
        }

        found.Header.Complete(_choices.Frame);
        if (found.Header.Problems.Count == 0)
            return found;

        _refusals = [.. found.Header.Problems.Select(problem => problem with { Expected = problem.Expected + KindHint(text) })];
        return null;
    }

    private string Wanted() => string.Join(", ", _layout.Columns.Where(column => column.Required || !column.OfPosition).Select(column => column.Title).Take(8)) + " and others";

    private string KindHint(SampledText text)
    {
        var kind = Layouts.Recognise(text, _otherLayouts);
        return kind is null || kind.Title == _layout.Title ? "" : $"; this looks like a file of {kind.Title}";
    }

    /// <summary>The beginning usually shows how numbers and dates are written; where it does not, the whole file is asked if it can be.</summary>
    private Evidence GatherEvidence(
        Stream stream, long begin, ref SampledText text, TableHeader header, char delimiter, CancellationToken cancellation)
    {
        var evidence = new Evidence();
        evidence.Gather(text.SplitSample(delimiter), header);
        var open = (evidence.NeedsDateOrder && _choices.DayMonthOrder is null) || (evidence.NeedsMark && _choices.DecimalComma is null);
        if (!open || !stream.CanSeek)
            return evidence;

        stream.Position = begin;
        evidence = new Evidence();
        evidence.Gather(new SampledText(stream, cancellation).SplitAll(delimiter), header);
        stream.Position = begin;
        text = new SampledText(stream, cancellation);
        return evidence;
    }

    private bool DatesRefused(Evidence evidence)
    {
        if (_choices.DayMonthOrder is not null)
            return false;
        if (evidence.DatesContradict)
            Refuse(0, null, $"one order of day and month in dates with slashes; {evidence.ContradictingLines}");
        else if (evidence.NeedsDateOrder)
            Refuse(0, null, "a choice of day first or month first: no date with slashes proves its order");
        return _refusals.Length > 0;
    }

    private void TellLinesAbove(SampledText text, TableHeader header, char delimiter)
    {
        var above = HeaderSearch.LinesAbove(text, header, delimiter);
        if (above.Count > 0)
            _assumptions.Add($"Lines above the header, not read: {string.Join(" | ", above.Take(5))}{(above.Count > 5 ? " | \u2026" : "")}");
    }

    private void Walk(
        RecordSplitter splitter, TableHeader header, char delimiter, RowCells cells, Func<RowCells, T?> readRow, CancellationToken cancellation)
    {
        while (splitter.Next() is var state and not RecordState.End)
        {
            if (splitter.Line <= header.Line)
                continue;
            if ((_rowsRead & 1023) == 0)
                cancellation.ThrowIfCancellationRequested();
            if (IsNoRow(splitter, state))
                continue;
            if (++_rowsRead > _choices.MostRows)
            {
                Refuse(splitter.Line, null, string.Create(CultureInfo.InvariantCulture, $"at most {_choices.MostRows} rows in one file; bring it in in parts"));
                return;
            }

            Take(splitter, state, header, delimiter, cells, readRow);
            WarnOfCut(splitter, header, cells);
        }
    }

    private void Take(
        RecordSplitter splitter, RecordState state, TableHeader header, char delimiter, RowCells cells, Func<RowCells, T?> readRow)
    {
        cells.Begin();
        var expected = BrokenRecord(splitter, state, header, delimiter);
        if (expected is not null)
            cells.Problem(null, state is RecordState.Good ? splitter.Cell(0) : splitter.Beginning, expected);
        if (expected is null && readRow(cells) is { } value && !cells.IsBad)
            _rows.Add(new ReadRow<T>(splitter.Line, value));
        else
            _linesLeftOut.Add(splitter.Line);
    }

    private bool IsNoRow(RecordSplitter splitter, RecordState state)
    {
        if (state is not RecordState.Good)
            return false;
        var comment = !splitter.FirstCellQuoted && splitter.Cell(0).TrimStart() is ['#', ..];
        if (comment)
        {
            _commentLines++;
            _warnings.Add(splitter.Line, null, splitter.Cell(0), "a row; a line that begins with # is not read");
            return true;
        }

        for (var cell = 0; cell < splitter.CellCount; cell++)
        {
            if (!splitter.Cell(cell).IsWhiteSpace())
                return false;
        }

        _blankRows++;
        return true;
    }

    private static string? BrokenRecord(RecordSplitter splitter, RecordState state, TableHeader header, char delimiter)
    {
        var cut = splitter.EndsWithoutLineEnd ? "; the file ends in this line and seems to be cut off" : "";
        if (state is not RecordState.Good)
            return Expected(state) + cut;
        if (splitter.CellCount < header.CellCount)
            return Count($"{header.CellCount} cells as in the header; this line has {splitter.CellCount}") + cut;

        for (var cell = header.CellCount; cell < splitter.CellCount; cell++)
        {
            if (!splitter.Cell(cell).IsWhiteSpace())
                return Count($"{header.CellCount} cells as in the header; this line has {splitter.CellCount}")
                    + (delimiter == ',' ? ", as where decimal commas stand in a file with commas as delimiter" : "");
        }

        return null;

        static string Count(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
    }

    private static string Expected(RecordState state) => state switch
    {
        RecordState.TextAfterQuote => "a delimiter or the end of the line after the closing quotation mark",
        RecordState.QuoteNotClosed => "a closing quotation mark",
        RecordState.TooLong => string.Create(CultureInfo.InvariantCulture, $"a line of at most {RecordSplitter.LongestRecord} characters"),
        _ => string.Create(CultureInfo.InvariantCulture, $"at most {RecordSplitter.MostCells} cells in a line"),
    };

    /// <summary>A file cut within its last cell keeps the number of cells; only the missing line end tells.</summary>
    private static void WarnOfCut(RecordSplitter splitter, TableHeader header, RowCells cells)
    {
        if (cells.IsBad || !splitter.EndsWithoutLineEnd)
            return;
        var last = header.Layout.Columns.FirstOrDefault(column => header.CellOf(column) == header.CellCount - 1);
        if (last is { Quantity: not null } or { IsTime: true })
            cells.Warn(last.Title, splitter.Cell(header.CellCount - 1), "a line end; if the file was cut off, this last cell may be incomplete");
    }

    private void Tell(SampledText text, TableHeader header, char delimiter, Evidence evidence, RowCells cells)
    {
        var mark = (_choices.DecimalComma ?? evidence.DecimalComma) ? "decimal comma" : "decimal point";
        _assumptions.Insert(0, string.Create(
            CultureInfo.InvariantCulture, $"Read as {text.EncodingName}, {Words(delimiter)} as delimiter, {mark}; header on line {header.Line}."));
        if (_choices.DecimalComma is null && evidence.MarkSentence is { } sentence)
            _assumptions.Add(sentence);
        _assumptions.AddRange(header.Assumptions);
        if (cells.SawSiteTime)
            _assumptions.Add($"Times without offset are taken as site time, {_choices.TimeZone}.");
        if (evidence.HasSlashDates && (_choices.DayMonthOrder ?? evidence.DateOrder) is { } order)
            _assumptions.Add($"Dates with slashes have the {(order is DayMonthOrder.DayFirst ? "day" : "month")} first, {(_choices.DayMonthOrder is null ? "as some of them prove" : "as chosen")}.");
        if (_blankRows > 0)
            _assumptions.Add(string.Create(CultureInfo.InvariantCulture, $"{_blankRows} blank lines passed over."));
    }

    private void Refuse(long line, string? found, string expected)
        => _refusals = [new ImportProblem(line, null, found, expected, WholeFile: true)];

    private static string Words(char delimiter) => delimiter switch
    {
        ';' => "semicolon",
        ',' => "comma",
        '\t' => "tab",
        _ => $"\u201C{delimiter}\u201D",
    };

    private TableReading<T> Result() => new()
    {
        // Where the whole file is refused, no part of it may be taken.
        Rows = _refusals.Length > 0 ? [] : _rows,
        Problems = [.. _refusals, .. _problems.Kept],
        ProblemCount = _refusals.Length + _problems.Count,
        Warnings = _warnings.Kept,
        WarningCount = _warnings.Count,
        Assumptions = _assumptions,
        RowsRead = _rowsRead,
        LinesLeftOut = _linesLeftOut,
    };
}
