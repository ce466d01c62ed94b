using System.Globalization;
using SiteProgress.Exchange.Sources;

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
    private readonly List<OpenQuestion> _questions = [];
    private HeaderReading? _header;
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
        using var source = TableSources.Open(stream, choices, cancellation);
        walk.Run(source, readRow, cancellation);
        return walk.Result();
    }

    private void Run(TableSource source, Func<RowCells, T?> readRow, CancellationToken cancellation)
    {
        if (source.Refusal is { } unusable)
        {
            Refuse(0, null, unusable);
            return;
        }

        if (FindHeader(source) is not { } found)
            return;

        var header = found.Header;
        var evidence = GatherEvidence(source, found);
        if (DatesRefused(evidence, header))
            return;

        TellLinesAbove(source, found);
        var records = source.All(found.Way);
        var cells = new RowCells(records, header, _choices, evidence, _problems, _warnings);
        Walk(records, header, found.Way.Delimiter, cells, readRow, cancellation);
        cells.Close();
        Tell(source, found, evidence, cells);
    }

    private FoundHeader? FindHeader(TableSource source)
    {
        if (HeaderSearch.Find(source, _layout, _choices) is not { } found)
        {
            RefuseHeader(source);
            return null;
        }

        if (HeaderSearch.BrokenAt(source, found.Way) is { } broken)
        {
            Refuse(0, null, broken);
            return null;
        }

        found.Header.Complete(_choices.Frame);
        _questions.AddRange(source.Questions(found.Way));
        _questions.AddRange(found.Header.Questions);
        _header = HeaderReadings.Of(source, found);
        if (source.Unanswered(found.Way) is { } unanswered)
            Refuse(0, null, unanswered);
        if (found.Header.Problems.Count == 0 && _refusals.Length == 0)
            return found;

        _refusals = [.. _refusals, .. found.Header.Problems.Select(problem => problem with { Expected = problem.Expected + KindHint(source) })];
        _assumptions.AddRange(found.Header.Assumptions);
        return null;
    }

    private void RefuseHeader(TableSource source)
    {
        if (HeaderSearch.BrokenAt(source, _choices) is { } broken)
        {
            Refuse(0, null, broken);
            return;
        }

        Refuse(0, HeaderSearch.FirstLine(source), HeaderSearch.FindExcluded(source, _layout, _choices) is { } other
            ? $"the delimiter {TextSource.Words(_choices.Delimiter!.Value)} as chosen; the file has a header with {TextSource.Words(other.Way.Delimiter)} on line {other.Header.Line.ToString(CultureInfo.InvariantCulture)}"
            : $"a header with the column titles of {_layout.Title} ({Wanted()}){(source.IsText ? ", parted by comma, semicolon or tab" : "")}{KindHint(source)}");
        if (HeaderSearch.Guess(source, _layout, _choices) is { } guessed)
            _header = HeaderReadings.Of(source, guessed);
    }

    private string Wanted() => string.Join(", ", _layout.Columns.Where(column => column.Required || !column.OfPosition).Select(column => column.Title).Take(8)) + " and others";

    private string KindHint(TableSource source)
    {
        var kind = Layouts.Recognise(source, _otherLayouts, _choices with { Columns = [], FixedValues = [] });
        return kind is null || kind.Title == _layout.Title ? "" : $"; this looks like a file of {kind.Title}";
    }

    /// <summary>The beginning usually shows how numbers and dates are written; where it does not, the whole file is asked if it can be.</summary>
    private Evidence GatherEvidence(TableSource source, FoundHeader found)
    {
        var evidence = new Evidence();
        evidence.Gather(source.Beginning(found.Way), found.Header);
        var open = (evidence.NeedsDateOrder && DateOrder(found.Header) is null) || (evidence.NeedsMark && _choices.DecimalComma is null);
        if (!open || !source.CanBeReadAgain)
            return evidence;

        evidence = new Evidence();
        evidence.Gather(source.All(found.Way), found.Header);
        return evidence;
    }

    private DayMonthOrder? DateOrder(TableHeader header) => _choices.DayMonthOrder ?? header.DateOrder;

    private bool DatesRefused(Evidence evidence, TableHeader header)
    {
        if (DateOrder(header) is not null)
            return false;
        if (evidence.DatesContradict)
            Refuse(0, null, $"one order of day and month in dates with slashes; {evidence.ContradictingLines}");
        else if (evidence.NeedsDateOrder)
        {
            Refuse(0, null, "a choice of day first or month first: no date with slashes proves its order");
            _questions.Add(new OpenQuestion(QuestionKind.DateOrder, "Dates are written with slashes and none proves whether the day or the month comes first."));
        }

        return _refusals.Length > 0;
    }

    private void TellLinesAbove(TableSource source, FoundHeader found)
    {
        var above = HeaderSearch.LinesAbove(source, found.Header, found.Way);
        if (above.Count > 0)
            _assumptions.Add($"Lines above the header, not read: {string.Join(" | ", above.Take(5))}{(above.Count > 5 ? " | \u2026" : "")}");
    }

    private void Walk(
        IRecords records, TableHeader header, char delimiter, RowCells cells, Func<RowCells, T?> readRow, CancellationToken cancellation)
    {
        while (records.Next() is var state and not RecordState.End)
        {
            if (state is RecordState.Broken)
            {
                Refuse(records.Line, null, records.Broken!);
                return;
            }

            if (records.Line <= header.Line)
                continue;
            if ((_rowsRead & 1023) == 0)
                cancellation.ThrowIfCancellationRequested();
            if (IsNoRow(records, state))
                continue;
            if (++_rowsRead > _choices.MostRows)
            {
                Refuse(records.Line, null, string.Create(CultureInfo.InvariantCulture, $"at most {_choices.MostRows} rows in one file; bring it in in parts"));
                return;
            }

            Take(records, state, header, delimiter, cells, readRow);
            WarnOfCut(records, header, cells);
        }
    }

    private void Take(
        IRecords records, RecordState state, TableHeader header, char delimiter, RowCells cells, Func<RowCells, T?> readRow)
    {
        cells.Begin();
        var expected = BrokenRecord(records, state, header, delimiter);
        if (expected is not null)
            cells.Problem(null, state is RecordState.Good ? records.Cell(0) : records.Beginning, expected);
        if (expected is null && readRow(cells) is { } value && !cells.IsBad)
            _rows.Add(new ReadRow<T>(records.Line, value));
        else
            _linesLeftOut.Add(records.Line);
    }

    private bool IsNoRow(IRecords records, RecordState state)
    {
        if (state is not RecordState.Good)
            return false;
        var comment = !records.FirstCellQuoted && records.Cell(0).TrimStart() is ['#', ..];
        if (comment)
        {
            _commentLines++;
            _warnings.Add(records.Line, null, records.Cell(0), "a row; a line that begins with # is not read");
            return true;
        }

        for (var cell = 0; cell < records.CellCount; cell++)
        {
            if (!records.Cell(cell).IsWhiteSpace())
                return false;
        }

        _blankRows++;
        return true;
    }

    private static string? BrokenRecord(IRecords records, RecordState state, TableHeader header, char delimiter)
    {
        var cut = records.EndsWithoutLineEnd ? "; the file ends in this line and seems to be cut off" : "";
        if (state is not RecordState.Good)
            return Expected(state) + cut;
        if (records.CellCount < header.CellCount && !records.MayBeShort)
            return Count($"{header.CellCount} cells as in the header; this line has {records.CellCount}") + cut;

        for (var cell = header.CellCount; cell < records.CellCount; cell++)
        {
            if (!records.Cell(cell).IsWhiteSpace())
                return Count($"{header.CellCount} cells as in the header; this line has {records.CellCount}")
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
    private static void WarnOfCut(IRecords records, TableHeader header, RowCells cells)
    {
        if (cells.IsBad || !records.EndsWithoutLineEnd)
            return;
        var last = header.Layout.Columns.FirstOrDefault(column => header.CellOf(column) == header.CellCount - 1);
        if (last is { Quantity: not null } or { IsTime: true })
            cells.Warn(last.Title, records.Cell(header.CellCount - 1), "a line end; if the file was cut off, this last cell may be incomplete");
    }

    private void Tell(TableSource source, FoundHeader found, Evidence evidence, RowCells cells)
    {
        var header = found.Header;
        var mark = (_choices.DecimalComma ?? evidence.DecimalComma) ? ", decimal comma" : source.IsText ? ", decimal point" : "";
        var line = header.Line > 0 ? string.Create(CultureInfo.InvariantCulture, $"; header on line {header.Line}") : "";
        _assumptions.Insert(0, $"Read as {source.Describe(found.Way)}{mark}{line}.");
        if (_choices.DecimalComma is null && evidence.MarkSentence is { } sentence)
        {
            _assumptions.Add(sentence);
            _questions.Add(new OpenQuestion(QuestionKind.DecimalMark, sentence));
        }

        _assumptions.AddRange(source.Assumptions(found.Way));
        _assumptions.AddRange(header.Assumptions);
        TellTables(source, found);
        TellTimes(evidence, header, cells);
        if (_blankRows > 0)
            _assumptions.Add(string.Create(CultureInfo.InvariantCulture, $"{_blankRows} blank lines passed over."));
    }

    private void TellTables(TableSource source, FoundHeader found)
    {
        if (found.OtherTables.Count == 0 || _choices.Table is not null)
            return;
        var others = string.Join(", ", found.OtherTables.Take(5).Select(name => $"\u201C{ImportProblem.Shorten(name)}\u201D"));
        _questions.Add(new OpenQuestion(QuestionKind.Table, $"Another {source.TableWord} has such a header as well: {others}. Only \u201C{ImportProblem.Shorten(found.Way.Name ?? "")}\u201D was read."));
    }

    private void TellTimes(Evidence evidence, TableHeader header, RowCells cells)
    {
        _assumptions.AddRange(cells.Split.Assumptions());
        if (cells.Split.Question() is { } question)
            _questions.Add(question);
        if (cells.SawSiteTime && _choices.TimesIn is { } zone)
            _assumptions.Add($"Times without offset are taken as {zone}, as chosen.");
        else if (cells.SawSiteTime)
        {
            _assumptions.Add($"Times without offset are taken as site time, {_choices.TimeZone}.");
            _questions.Add(new OpenQuestion(QuestionKind.TimeZone, $"The times name no offset; site time ({_choices.TimeZone}) is assumed."));
        }

        // What the title says was told with the title.
        if (evidence.HasSlashDates && (_choices.DayMonthOrder is not null || header.DateOrder is null) && (_choices.DayMonthOrder ?? evidence.DateOrder) is { } order)
            _assumptions.Add($"Dates with slashes have the {(order is DayMonthOrder.DayFirst ? "day" : "month")} first, {(_choices.DayMonthOrder is null ? "as some of them prove" : "as chosen")}.");
    }

    private void Refuse(long line, string? found, string expected)
        => _refusals = [new ImportProblem(line, null, found, expected, WholeFile: true)];

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
        Header = _header,
        Questions = _questions,
    };
}
