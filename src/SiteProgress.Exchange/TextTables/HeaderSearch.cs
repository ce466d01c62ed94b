namespace SiteProgress.Exchange.TextTables;

/// <summary>Finds the header of a table below title and comment lines, and with it the delimiter.</summary>
internal static class HeaderSearch
{
    private const int LinesToLookAt = 50;
    private static readonly char[] Delimiters = [';', '\t', ','];

    /// <summary>The line that has most titles of a layout, or null where no line has two.</summary>
    /// <param name="text">Beginning of the file.</param>
    /// <param name="layout">Titles looked for.</param>
    /// <param name="chosen">Delimiter a person chose, or null.</param>
    public static (TableHeader Header, char Delimiter)? Find(SampledText text, TableLayout layout, char? chosen)
    {
        (TableHeader Header, char Delimiter)? best = null;
        foreach (var delimiter in chosen is { } one ? [one] : Delimiters)
        {
            foreach (var (cells, line) in FirstRecords(text, delimiter))
            {
                if (cells[0].StartsWith('#'))
                    continue;
                var header = new TableHeader(layout, cells, line);
                if (header.Matched >= 2 && header.Matched > (best?.Header.Matched ?? 0))
                    best = (header, delimiter);
            }
        }

        return best;
    }

    /// <summary>Lines above the header that are not blank, shortened.</summary>
    /// <param name="text">Beginning of the file.</param>
    /// <param name="header">The header.</param>
    /// <param name="delimiter">Delimiter.</param>
    public static IReadOnlyList<string> LinesAbove(SampledText text, TableHeader header, char delimiter)
        => [.. FirstRecords(text, delimiter)
            .TakeWhile(record => record.Line < header.Line)
            .Select(record => ImportProblem.Shorten(string.Join(' ', record.Cells.Where(cell => !string.IsNullOrWhiteSpace(cell)))))
            .Where(line => line.Length > 0)];

    /// <summary>First line that is not blank, for a message.</summary>
    /// <param name="text">Beginning of the file.</param>
    public static string FirstLine(SampledText text)
        => FirstRecords(text, '\0').Select(record => record.Cells[0]).FirstOrDefault(line => !string.IsNullOrWhiteSpace(line)) ?? "";

    private static IEnumerable<(string[] Cells, long Line)> FirstRecords(SampledText text, char delimiter)
    {
        var splitter = text.SplitSample(delimiter);
        for (var count = 0; count < LinesToLookAt; count++)
        {
            var state = splitter.Next();
            if (state is RecordState.End)
                yield break;
            if (state is not RecordState.Good)
                continue;

            var cells = new string[splitter.CellCount];
            for (var cell = 0; cell < cells.Length; cell++)
                cells[cell] = splitter.Cell(cell).ToString();
            yield return (cells, splitter.Line);
        }
    }
}
