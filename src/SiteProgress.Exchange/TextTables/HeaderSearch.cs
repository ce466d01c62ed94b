using SiteProgress.Exchange.Sources;

namespace SiteProgress.Exchange.TextTables;

/// <summary>A header and the way of reading the file in which it was found.</summary>
/// <param name="Header">The header.</param>
/// <param name="Way">The way.</param>
/// <param name="OtherTables">Names of other tables of the file whose header fits as well.</param>
internal sealed record FoundHeader(TableHeader Header, TableWay Way, IReadOnlyList<string> OtherTables);

/// <summary>Finds the header of a table below title and comment lines, and with it the delimiter or the sheet.</summary>
internal static class HeaderSearch
{
    private const int LinesToLookAt = 50;

    /// <summary>The line that has most titles of a layout, or null where no line has two.</summary>
    /// <param name="source">The file.</param>
    /// <param name="layout">Titles looked for.</param>
    /// <param name="choices">Table and header line a person chose; columns they named are not looked at here.</param>
    public static FoundHeader? Find(TableSource source, TableLayout layout, ReadingChoices choices)
        => Find(source, layout, choices, Ways(source, choices));

    /// <summary>The header that would be found if a person had not chosen another way, or null.</summary>
    /// <param name="source">The file.</param>
    /// <param name="layout">Titles looked for.</param>
    /// <param name="choices">What to read with.</param>
    public static FoundHeader? FindExcluded(TableSource source, TableLayout layout, ReadingChoices choices)
        => Find(source, layout, choices, source.ExcludedWays);

    private static FoundHeader? Find(TableSource source, TableLayout layout, ReadingChoices choices, IEnumerable<TableWay> ways)
    {
        (TableHeader Header, TableWay Way)? best = null;
        HashSet<string> fitting = [];
        foreach (var way in ways)
        {
            foreach (var header in Candidates(source, way, layout, choices.HeaderLine))
            {
                if (header.Matched < 2 && choices.HeaderLine is null)
                    continue;
                if (way.Name is not null)
                    fitting.Add(way.Name);
                if (best is null || Fit(header) > Fit(best.Value.Header))
                    best = (header, way);
            }
        }

        return best is { } found
            ? new FoundHeader(found.Header.With(choices), found.Way, [.. fitting.Where(name => name != found.Way.Name)])
            : null;
    }

    /// <summary>More titles are better; of two headers with the same titles, the one that takes the line of units below them with it.</summary>
    private static int Fit(TableHeader header) => (2 * header.Matched) + (header.HasLineOfUnits ? 1 : 0);

    /// <summary>The line that looks most like a header, whatever its titles: so that a person can say what its columns are.</summary>
    /// <param name="source">The file.</param>
    /// <param name="layout">Columns the file may have.</param>
    /// <param name="choices">Table a person chose.</param>
    public static FoundHeader? Guess(TableSource source, TableLayout layout, ReadingChoices choices)
    {
        (TableHeader Header, TableWay Way, int Titles)? best = null;
        foreach (var way in Ways(source, choices))
        {
            foreach (var (cells, line) in FirstRecords(source, way))
            {
                var titles = cells.Count(cell => cell.Any(char.IsLetter));
                if (titles >= 2 && titles > (best?.Titles ?? 0))
                    best = (new TableHeader(layout, cells, line), way, titles);
            }
        }

        return best is { } found ? new FoundHeader(found.Header, found.Way, []) : null;
    }

    /// <summary>What was expected where a file breaks within its first records; null where it does not.</summary>
    /// <param name="source">The file.</param>
    /// <param name="choices">Table a person chose.</param>
    public static string? BrokenAt(TableSource source, ReadingChoices choices)
        => Ways(source, choices).Select(way => BrokenAt(source, way)).FirstOrDefault(broken => broken is not null);

    /// <summary>What was expected where a table breaks within its first records; null where it does not.</summary>
    /// <param name="source">The file.</param>
    /// <param name="way">The table.</param>
    public static string? BrokenAt(TableSource source, TableWay way)
    {
        var records = source.Beginning(way);
        for (var count = 0; count < LinesToLookAt && records.Next() is var state && state is not RecordState.End; count++)
        {
            if (state is RecordState.Broken)
                return records.Broken;
        }

        return null;
    }

    /// <summary>Lines above the header that are not blank, shortened.</summary>
    /// <param name="source">The file.</param>
    /// <param name="header">The header.</param>
    /// <param name="way">The way in which it was found.</param>
    public static IReadOnlyList<string> LinesAbove(TableSource source, TableHeader header, TableWay way)
        => [.. FirstRecords(source, way)
            .TakeWhile(record => record.Line < header.FirstLine)
            .Select(record => ImportProblem.Shorten(string.Join(' ', record.Cells.Where(cell => !string.IsNullOrWhiteSpace(cell)))))
            .Where(line => line.Length > 0)];

    /// <summary>The first rows below a header.</summary>
    /// <param name="source">The file.</param>
    /// <param name="header">The header.</param>
    /// <param name="way">The way in which it was found.</param>
    /// <param name="count">How many.</param>
    public static IReadOnlyList<string[]> FirstRows(TableSource source, TableHeader header, TableWay way, int count)
        => [.. FirstRecords(source, way)
            .Where(record => record.Line > header.Line && record.Cells.Any(cell => !string.IsNullOrWhiteSpace(cell)))
            .Select(record => record.Cells).Take(count)];

    /// <summary>First line that is not blank, for a message.</summary>
    /// <param name="source">The file.</param>
    public static string FirstLine(TableSource source)
    {
        // A text is taken whole, without any delimiter.
        var way = source.IsText || source.Ways.Count == 0 ? new TableWay(0, null, '\0') : source.Ways[0];
        return FirstRecords(source, way)
            .Select(record => string.Join(' ', record.Cells).Trim()).FirstOrDefault(line => line.Length > 0) ?? "";
    }

    private static IEnumerable<TableWay> Ways(TableSource source, ReadingChoices choices)
        => source.Ways.Where(way => choices.Table is null || way.Name is null || way.Name == choices.Table);

    private static IEnumerable<TableHeader> Candidates(TableSource source, TableWay way, TableLayout layout, long? onlyLine)
    {
        (string[] Cells, long Line)? above = null;
        foreach (var (cells, line) in FirstRecords(source, way))
        {
            if (source.IsText && cells[0].StartsWith('#'))
                continue;
            if (onlyLine is null || onlyLine == line)
            {
                var header = new TableHeader(layout, cells, line);
                yield return header;
                if (above is { } first && TableHeader.OfTwoLines(layout, first.Cells, first.Line, cells, line) is { } both && both.Matched > header.Matched)
                    yield return both;
            }

            // Who names the line of the header may mean that of the titles or that of the units.
            if (above is { } titles && (onlyLine is null || onlyLine == line || onlyLine == titles.Line)
                && TableHeader.OfUnitsBelow(layout, titles.Cells, titles.Line, cells, line) is { Matched: > 0 } withUnits)
                yield return withUnits;

            above = (cells, line);
        }
    }

    private static IEnumerable<(string[] Cells, long Line)> FirstRecords(TableSource source, TableWay way)
    {
        var records = source.Beginning(way);
        for (var count = 0; count < LinesToLookAt; count++)
        {
            var state = records.Next();
            if (state is RecordState.End or RecordState.Broken)
                yield break;
            if (state is not RecordState.Good || records.CellCount == 0)
                continue;

            var cells = new string[records.CellCount];
            for (var cell = 0; cell < cells.Length; cell++)
                cells[cell] = records.Cell(cell).ToString();
            yield return (cells, records.Line);
        }
    }
}
