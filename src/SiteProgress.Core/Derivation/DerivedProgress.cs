using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Core.Derivation;

/// <summary>Diary, schedule and daily reports in force.</summary>
/// <param name="Diary">Hours in force, by working day, barge and place.</param>
/// <param name="Planned">Rows of the schedule of progress in force.</param>
/// <param name="Plan">Plan of work in force; null before there is one.</param>
/// <param name="Notes">Notes of working days.</param>
/// <param name="Reports">Daily reports, every issue.</param>
public sealed record DerivedProgress(
    IReadOnlyList<DiaryLineInForce> Diary,
    IReadOnlyList<PlannedProgress> Planned,
    Kept<WorkPlanBody>? Plan,
    IReadOnlyList<Kept<DayNotesBody>> Notes,
    IReadOnlyList<DerivedDailyReport> Reports)
{
    /// <summary>Nothing on record.</summary>
    public static DerivedProgress Empty { get; } = new([], [], null, [], []);

    /// <summary>What the records give.</summary>
    public static DerivedProgress Of(SiteHistory history)
    {
        ArgumentNullException.ThrowIfNull(history);
        return new DerivedProgress(
            DiaryInForce.Of(history),
            PlannedInForce(history),
            history.WorkPlan,
            history.DayNotes.Values.OrderBy(note => note.Body.WorkingDay).ToArray(),
            DerivedDailyReport.Of(history.DailyReports));
    }

    /// <summary>The schedule that came in last replaces the one before.</summary>
    private static PlannedProgress[] PlannedInForce(SiteHistory history)
    {
        BatchRow<PlannedProgress>[] rows = history.PlannedProgress.ToArray();
        if (rows.Length == 0) return [];
        long last = rows.Max(row => row.Batch);
        return rows.Where(row => row.Batch == last).Select(row => row.Value)
            .GroupBy(row => (Zone: row.Zone?.ToUpperInvariant(), row.Day)).Select(same => same.Last())
            .OrderBy(row => row.Zone, StringComparer.Ordinal).ThenBy(row => row.Day).ToArray();
    }
}

/// <summary>One entry of the diary in force.</summary>
/// <param name="Entry">What it says.</param>
/// <param name="Place">Its place among the entries of its day and barge, from 1.</param>
/// <param name="Sequence">Sequence of the record it comes from.</param>
public sealed record DiaryLineInForce(DiaryEntry Entry, int Place, long Sequence);

/// <summary>One issue of a daily report with what became of it.</summary>
/// <param name="Issued">The issue.</param>
/// <param name="ContractorSigned">The contractor's signature; null before it.</param>
/// <param name="OwnerSigned">The owner's signature; null before it.</param>
/// <param name="Disputes">Lines the owner disputes.</param>
public sealed record DerivedDailyReport(
    Kept<DailyReportIssuedBody> Issued,
    Kept<DailyReportSignedBody>? ContractorSigned,
    Kept<DailyReportSignedBody>? OwnerSigned,
    IReadOnlyList<Kept<DailyReportDisputedBody>> Disputes)
{
    internal static DerivedDailyReport[] Of(IReadOnlyList<Kept<RecordBody>> records)
    {
        Dictionary<(LocalDate Day, int Issue), DerivedDailyReport> reports = [];
        foreach (Kept<RecordBody> record in records)
        {
            switch (record.Body)
            {
                case DailyReportIssuedBody body:
                    reports.TryAdd((body.WorkingDay, body.Issue), new DerivedDailyReport(With(record, body), null, null, []));
                    break;
                case DailyReportSignedBody body when reports.TryGetValue((body.WorkingDay, body.Issue), out DerivedDailyReport? report):
                    // The first signature of a side stands.
                    reports[(body.WorkingDay, body.Issue)] = body.Countersigned
                        ? report with { OwnerSigned = report.OwnerSigned ?? With(record, body) }
                        : report with { ContractorSigned = report.ContractorSigned ?? With(record, body) };
                    break;
                case DailyReportDisputedBody body when reports.TryGetValue((body.WorkingDay, body.Issue), out DerivedDailyReport? report):
                    reports[(body.WorkingDay, body.Issue)] = report with { Disputes = [.. report.Disputes, With(record, body)] };
                    break;
            }
        }

        return reports.OrderBy(one => one.Key.Day).ThenBy(one => one.Key.Issue).Select(one => one.Value).ToArray();
    }

    private static Kept<T> With<T>(Kept<RecordBody> record, T body) => new(record.Sequence, record.At, record.By, body);
}
