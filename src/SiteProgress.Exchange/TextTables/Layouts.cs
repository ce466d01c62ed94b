using SiteProgress.Core.Piles;
using SiteProgress.Exchange.Calibrations;
using SiteProgress.Exchange.WaterLevels;
using SiteProgress.Exchange.CheckMeasurements;
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

namespace SiteProgress.Exchange.TextTables;

/// <summary>The kinds of table that can be read, one line each.</summary>
internal static class Layouts
{
    /// <summary>All kinds.</summary>
    /// <param name="axes">Names of the axes of the site grid.</param>
    public static IReadOnlyList<TableLayout> All(GridAxes axes) =>
    [
        new PlannedPileLayout(axes),
        new InstallationLayout(axes),
        new CheckMeasurementLayout(axes),
        new ControlPointLayout(axes),
        new SandDeliveryLayout(axes),
        new DiaryLayout(axes),
        new PlannedProgressLayout(axes),
        new PenetrationTestLayout(axes),
        new CalibrationLayout(axes),
        new WaterLevelLayout(axes),
        new SeabedSurveyLayout(axes),
    ];

    /// <summary>The kind whose columns the header has, the one with most columns first; null where it has those of none.</summary>
    /// <param name="source">The file.</param>
    /// <param name="layouts">Kinds to try.</param>
    /// <param name="choices">What to read with.</param>
    public static TableLayout? Recognise(TableSource source, IReadOnlyList<TableLayout> layouts, ReadingChoices choices)
        => Headers(source, layouts, choices).Where(header => header.Problems.Count == 0).MaxBy(header => header.Matched)?.Layout;

    /// <summary>The kind the header comes nearest to, although something stands in the way; null where it comes near none.</summary>
    /// <param name="source">The file.</param>
    /// <param name="layouts">Kinds to try.</param>
    /// <param name="choices">What to read with.</param>
    public static TableLayout? Nearest(TableSource source, IReadOnlyList<TableLayout> layouts, ReadingChoices choices)
        => Headers(source, layouts, choices).Where(header => header.Matched >= 3).MaxBy(header => header.Matched)?.Layout;

    /// <summary>
    /// True when the header is that of log samples: a time, a casing tip, and more of its columns than any other kind has. A log
    /// with a water level beside each sample has all a tide gauge's file must have, and would otherwise be taken for one.
    /// </summary>
    /// <param name="source">The file.</param>
    /// <param name="layouts">The other kinds.</param>
    /// <param name="choices">What to read with.</param>
    public static bool IsOfLogSamples(TableSource source, IReadOnlyList<TableLayout> layouts, ReadingChoices choices)
    {
        var log = new PileLogLayout(choices.GridAxes);
        if (Headers(source, [log], choices) is not [{ Problems.Count: 0 } header]) return false;
        if (header.PlaceOf(log.TipLevel) is null && header.PlaceOf(log.TipDepth) is null) return false;
        return Headers(source, layouts, choices).TrueForAll(other => other.Matched < header.Matched);
    }

    private static List<TableHeader> Headers(TableSource source, IReadOnlyList<TableLayout> layouts, ReadingChoices choices)
    {
        var headers = new List<TableHeader>();
        foreach (var layout in layouts)
        {
            if (HeaderSearch.Find(source, layout, choices) is not { } found)
                continue;
            found.Header.Complete(null);
            headers.Add(found.Header);
        }

        return headers;
    }
}
