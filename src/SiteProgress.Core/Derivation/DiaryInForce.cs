using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Core.Derivation;

/// <summary>The hours in force: of every barge and working day, what was recorded last, be it a file or the page.</summary>
internal static class DiaryInForce
{
    public static IReadOnlyList<DiaryLineInForce> Of(SiteHistory history)
    {
        Dictionary<(LocalDate Day, string Barge), (long Source, List<DiaryLineInForce> Lines)> inForce = [];
        var files = history.DiaryLines
            .GroupBy(row => (row.Batch, row.Value.WorkingDay, row.Value.Barge))
            .Select(group => (Source: group.Key.Batch, group.Key.WorkingDay, group.Key.Barge, Entries: group.Select(row => (row.Value, row.Sequence)).ToArray()));
        var pages = history.DiaryDays
            .Select(kept => (Source: kept.Sequence, kept.Body.WorkingDay, kept.Body.Barge, Entries: kept.Body.Entries.Select(entry => (entry, kept.Sequence)).ToArray()));
        foreach (var (source, day, barge, entries) in files.Concat(pages))
        {
            if (inForce.TryGetValue((day, barge), out var before) && before.Source > source) continue;
            inForce[(day, barge)] = (source, entries.Select((one, index) => new DiaryLineInForce(one.Item1, index + 1, one.Sequence)).ToList());
        }

        return inForce.OrderBy(one => one.Key.Day).ThenBy(one => one.Key.Barge, StringComparer.Ordinal).SelectMany(one => one.Value.Lines).ToArray();
    }
}
