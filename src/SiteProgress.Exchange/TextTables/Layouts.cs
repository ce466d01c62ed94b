using SiteProgress.Core.Piles;
using SiteProgress.Exchange.CheckMeasurements;
using SiteProgress.Exchange.ControlPoints;
using SiteProgress.Exchange.Diaries;
using SiteProgress.Exchange.Installations;
using SiteProgress.Exchange.PileSchedules;
using SiteProgress.Exchange.SandDeliveries;
using SiteProgress.Exchange.ProgressSchedules;

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
    ];

    /// <summary>The kind whose columns the header has, the one with most columns first; null where it has those of none.</summary>
    /// <param name="text">Beginning of the file.</param>
    /// <param name="layouts">Kinds to try.</param>
    public static TableLayout? Recognise(SampledText text, IReadOnlyList<TableLayout> layouts)
        => Headers(text, layouts).Where(header => header.Problems.Count == 0).MaxBy(header => header.Matched)?.Layout;

    /// <summary>The kind the header comes nearest to, although something stands in the way; null where it comes near none.</summary>
    /// <param name="text">Beginning of the file.</param>
    /// <param name="layouts">Kinds to try.</param>
    public static TableLayout? Nearest(SampledText text, IReadOnlyList<TableLayout> layouts)
        => Headers(text, layouts).Where(header => header.Matched >= 3).MaxBy(header => header.Matched)?.Layout;

    private static List<TableHeader> Headers(SampledText text, IReadOnlyList<TableLayout> layouts)
    {
        var headers = new List<TableHeader>();
        foreach (var layout in layouts)
        {
            if (HeaderSearch.Find(text, layout, null) is not { } found)
                continue;
            found.Header.Complete(null);
            headers.Add(found.Header);
        }

        return headers;
    }
}
