using SiteProgress.Exchange.Sources;

namespace SiteProgress.Exchange.Workbooks;

/// <summary>A workbook (xlsx) as tables, one a sheet; formulas give the values that were kept with them.</summary>
/// <remarks>
/// A library was considered (MiniExcel). It reads as fast, but trusts the sizes an archive states and ends with an exception
/// where this must name what is wrong; so the archive and its XML are read with the platform's own readers, strictly.
/// </remarks>
internal sealed class WorkbookSource : RowSource
{
    /// <summary>The format in words.</summary>
    public const string Format = "workbook (xlsx)";

    private readonly BoundedArchive _archive;
    private readonly WorkbookParts _parts;
    private SharedTexts? _texts;

    /// <param name="stream">The workbook; it stays open.</param>
    /// <param name="choices">Sheet a person chose.</param>
    /// <param name="cancellation">Ends the reading.</param>
    public WorkbookSource(Stream stream, ReadingChoices choices, CancellationToken cancellation)
        : base(Format, cancellation)
    {
        _archive = new BoundedArchive(stream);
        try
        {
            _parts = WorkbookParts.Read(_archive);
        }
        catch
        {
            _archive.Dispose();
            throw;
        }

        Ways = [.. _parts.Sheets.Select((sheet, index) => new TableWay(index, sheet.Name, '\0'))];
        Refusal = Ways.Count == 0 ? "a workbook with a sheet"
            : choices.Table is { } chosen && Ways.All(way => way.Name != chosen) ? $"a workbook with the sheet \u201C{ImportProblem.Shorten(chosen)}\u201D"
            : null;
    }

    public override IReadOnlyList<TableWay> Ways { get; }

    public override string TableWord => "sheet";

    public override string Describe(TableWay way) => $"a {Format}, sheet \u201C{ImportProblem.Shorten(way.Name!)}\u201D";

    public override IReadOnlyList<string> Assumptions(TableWay way)
    {
        var sentences = new List<string> { "Lines are rows of the sheet. Cells with formulas give the values kept with them." };
        if (Ways.Count > 1)
            sentences.Add($"Sheets not read: {string.Join(", ", Ways.Where(other => other != way).Take(20).Select(other => $"\u201C{ImportProblem.Shorten(other.Name!)}\u201D{(_parts.Sheets[other.Table].IsHidden ? " (hidden)" : "")}"))}.");
        if (_parts.Sheets[way.Table].IsHidden)
            sentences.Add("The sheet is hidden in the workbook.");
        return sentences;
    }

    protected override void Close() => _archive.Dispose();

    protected override IEnumerable<SourceRow> Rows(TableWay way)
    {
        _archive.RestartCount();
        _texts ??= SharedTexts.Read(_archive, _parts.StringsPart);
        if (_archive.Open(_parts.Sheets[way.Table].Part) is not { } sheet)
            throw new BrokenFileException("a workbook whose sheets are all there");
        return new SheetRows(_parts, _texts).Read(sheet);
    }
}
