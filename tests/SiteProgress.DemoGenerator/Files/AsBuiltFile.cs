using SiteProgress.DemoGenerator.Records;
using SiteProgress.DemoGenerator.Work;

namespace SiteProgress.DemoGenerator.Files;

/// <summary>One file of one barge: the rows a crew sent for about a fortnight. A row is an installation under a record identifier.</summary>
public sealed record AsBuiltFile(Barge Barge, DateOnly LastDay, IReadOnlyList<(Installation Installation, string Record)> Rows)
{
    public string Name => $"as-built/{SiteTime.Iso(LastDay)}-{Barge.Name.ToLowerInvariant()}" + (Barge.Name == "Curlew" ? ".tsv" : ".csv");

    /// <summary>Cuts the records into fortnights that end on Saturdays, and puts the repeated rows into the barge's next file.</summary>
    public static IReadOnlyList<AsBuiltFile> Cut(DemoSite site)
    {
        var files = new List<AsBuiltFile>();
        var first = SiteTime.WorkingDayOf(SiteTime.FirstMorning);
        foreach (var barge in Barge.All)
        {
            var rows = site.Installations.Where(each => each.Barge == barge)
                .GroupBy(each => (each.WorkingDay.DayNumber - first.DayNumber) / 14)
                .OrderBy(group => group.Key)
                .Select(group => (Period: group.Key, Rows: group.Select(each => (each, each.Record)).ToList()))
                .ToList();
            foreach (var (original, record) in site.Planting.Repeats.Where(repeat => repeat.Original.Barge == barge))
            {
                var period = (original.WorkingDay.DayNumber - first.DayNumber) / 14;
                var next = rows.FindIndex(each => each.Period > period);
                rows[next].Rows.Insert(0, (original, record));
            }

            files.AddRange(rows.Select(each => new AsBuiltFile(barge, LastDayOf(first, each.Period), each.Rows)));
        }

        return [.. files.OrderBy(file => file.Name, StringComparer.Ordinal)];
    }

    /// <summary>The Saturday of the fortnight's second week, or the last working day of all.</summary>
    private static DateOnly LastDayOf(DateOnly first, int period)
    {
        var saturday = first.AddDays((14 * period) + 12);
        var last = SiteTime.WorkingDayOf(SiteTime.LastMorning.AddHours(-1));
        return saturday < last ? saturday : last;
    }
}
