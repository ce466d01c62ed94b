using SiteProgress.Exchange.CheckMeasurements;
using SiteProgress.Exchange.ControlPoints;
using SiteProgress.Exchange.Diaries;
using SiteProgress.Exchange.Installations;
using SiteProgress.Exchange.PileSchedules;
using SiteProgress.Exchange.SandDeliveries;
using SiteProgress.Exchange.ProgressSchedules;
using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange;

/// <summary>What a file holds.</summary>
public enum FileKind
{
    /// <summary>The header has the columns of none of the kinds.</summary>
    Unknown = 0,

    /// <summary>A pile schedule.</summary>
    PlannedPiles = 1,

    /// <summary>As-built installations.</summary>
    Installations = 2,

    /// <summary>Check measurements.</summary>
    CheckMeasurements = 3,

    /// <summary>Control points.</summary>
    ControlPoints = 4,

    /// <summary>Sand delivered, stocks measured and sand lost.</summary>
    SandDeliveries = 51,
    /// <summary>Hours of barges.</summary>
    DiaryEntries = 90,

    /// <summary>A schedule of progress.</summary>
    PlannedProgress = 91,
}

/// <summary>What a file holds, judged by its header alone.</summary>
/// <param name="Kind">The kind.</param>
/// <param name="Reason">Why, as a sentence for a person.</param>
/// <param name="Problem">What stands in the way of every kind; null where a kind is named. A named kind may still lack a column: its reader says which.</param>
public sealed record FileKindGuess(FileKind Kind, string Reason, ImportProblem? Problem)
{
    /// <summary>Looks at the beginning of a file. A stream that can go back stands where it stood before.</summary>
    /// <param name="stream">The file.</param>
    /// <param name="choices">What the site knows.</param>
    /// <param name="cancellation">Ends the reading.</param>
    /// <returns>The kind, or unknown with the reason; bad content never throws.</returns>
    public static FileKindGuess From(Stream stream, ReadingChoices choices, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(choices);
        var begin = stream.CanSeek ? stream.Position : 0;
        var text = new SampledText(stream, cancellation);
        if (stream.CanSeek)
            stream.Position = begin;

        if (text.NotText is { } what)
            return Unknown($"The file is {what}.", $"a text table (CSV); this is {what}");
        if (text.IsBlank)
            return Unknown("The file is empty.", "a table; the file is empty");

        var layouts = Layouts.All(choices.GridAxes);
        if (Layouts.Recognise(text, layouts) is { } layout)
            return new FileKindGuess(KindOf(layout), $"The header has the columns of {layout.Title}.", null);
        if (Layouts.Nearest(text, layouts) is { } near)
            return new FileKindGuess(KindOf(near), $"The header comes nearest to that of {near.Title}.", null);

        var kinds = string.Join(", ", layouts.Select(one => one.Title));
        var first = ImportProblem.Shorten(HeaderSearch.FirstLine(text));
        return Unknown(
            $"No line has the columns of a known kind ({kinds}); the first is \u201C{first}\u201D.",
            $"a header with the column titles of {kinds}, parted by comma, semicolon or tab", first);
    }

    private static FileKindGuess Unknown(string reason, string expected, string? found = null)
        => new(FileKind.Unknown, reason, new ImportProblem(0, null, found, expected, WholeFile: true));

    private static FileKind KindOf(TableLayout layout) => layout switch
    {
        PlannedPileLayout => FileKind.PlannedPiles,
        InstallationLayout => FileKind.Installations,
        CheckMeasurementLayout => FileKind.CheckMeasurements,
        ControlPointLayout => FileKind.ControlPoints,
        SandDeliveryLayout => FileKind.SandDeliveries,
        DiaryLayout => FileKind.DiaryEntries,
        PlannedProgressLayout => FileKind.PlannedProgress,
        _ => FileKind.Unknown,
    };
}
