using SiteProgress.Exchange.Calibrations;
using SiteProgress.Exchange.CheckMeasurements;
using SiteProgress.Exchange.WaterLevels;
using SiteProgress.Exchange.ControlPoints;
using SiteProgress.Exchange.Diaries;
using SiteProgress.Exchange.GroundInvestigations;
using SiteProgress.Exchange.Installations;
using SiteProgress.Exchange.PileLogs;
using SiteProgress.Exchange.PileSchedules;
using SiteProgress.Exchange.ProgressSchedules;
using SiteProgress.Exchange.SandDeliveries;
using SiteProgress.Exchange.SeabedSurveys;
using SiteProgress.Exchange.Sources;
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

    /// <summary>Logs of piles, a sample a row.</summary>
    PileLogs = 52,

    /// <summary>Hours of barges.</summary>
    DiaryEntries = 90,

    /// <summary>A schedule of progress.</summary>
    PlannedProgress = 91,

    /// <summary>Calibrations of barges and casings.</summary>
    Calibrations = 40,

    /// <summary>Water levels observed at a gauge.</summary>
    WaterLevels = 41,

    /// <summary>Seabed surveys.</summary>
    SeabedSoundings = 120,

    /// <summary>Standard penetration tests of a ground investigation.</summary>
    PenetrationTests = 5,
}

/// <summary>What a file holds, judged by its header alone.</summary>
/// <param name="Kind">The kind.</param>
/// <param name="Reason">Why, as a sentence for a person.</param>
/// <param name="Problem">What stands in the way of every kind; null where a kind is named. A named kind may still lack a column: its reader says which.</param>
public sealed record FileKindGuess(FileKind Kind, string Reason, ImportProblem? Problem)
{
    /// <summary>The header by which it was judged, or the line that looks most like one; null where there is none.</summary>
    public HeaderReading? Header { get; init; }

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
        using var source = TableSources.Open(stream, choices, cancellation);
        var guess = From(source, choices);
        if (stream.CanSeek)
            stream.Position = begin;
        return guess;
    }

    private static FileKindGuess From(TableSource source, ReadingChoices choices)
    {
        if (source.Refusal is { } refusal)
            return Unknown(refusal is "a table; the file is empty" ? "The file is empty." : $"The file is not {refusal}.", refusal);

        var layouts = Layouts.All(choices.GridAxes);
        if (Layouts.IsOfLogSamples(source, layouts, choices))
        {
            var log = new PileLogLayout(choices.GridAxes);
            return new FileKindGuess(FileKind.PileLogs, $"The header has the columns of {log.Title}: a time and a casing tip, a sample a row.", null) { Header = HeaderOf(source, log, choices) };
        }

        if (Layouts.Recognise(source, layouts, choices) is { } layout)
            return new FileKindGuess(KindOf(layout), $"The header has the columns of {layout.Title}.", null) { Header = HeaderOf(source, layout, choices) };
        if (Layouts.Nearest(source, layouts, choices) is { } near)
            return new FileKindGuess(KindOf(near), $"The header comes nearest to that of {near.Title}.", null) { Header = HeaderOf(source, near, choices) };

        if (HeaderSearch.BrokenAt(source, choices) is { } broken)
            return Unknown($"The file cannot be read: expected {broken}.", broken);

        var kinds = string.Join(", ", layouts.Select(one => one.Title));
        var first = ImportProblem.Shorten(HeaderSearch.FirstLine(source));
        return Unknown(
            $"No line has the columns of a known kind ({kinds}); the first is \u201C{first}\u201D.",
            $"a header with the column titles of {kinds}{(source.IsText ? ", parted by comma, semicolon or tab" : "")}", first) with
        {
            Header = HeaderSearch.Guess(source, layouts[0], choices) is { } guessed ? HeaderReadings.Of(source, guessed) : null,
        };
    }

    private static HeaderReading? HeaderOf(TableSource source, TableLayout layout, ReadingChoices choices)
        => HeaderSearch.Find(source, layout, choices) is { } found ? HeaderReadings.Of(source, found) : null;

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
        PenetrationTestLayout => FileKind.PenetrationTests,
        CalibrationLayout => FileKind.Calibrations,
        WaterLevelLayout => FileKind.WaterLevels,
        SeabedSurveyLayout => FileKind.SeabedSoundings,
        _ => FileKind.Unknown,
    };
}
