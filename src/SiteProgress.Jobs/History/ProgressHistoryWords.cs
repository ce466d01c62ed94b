using System.Globalization;
using NodaTime;
using NodaTime.Text;
using SiteProgress.Core.Records;

namespace SiteProgress.Jobs.History;

/// <summary>What a record of diaries, plans of work and daily reports says, in a sentence.</summary>
internal static class ProgressHistoryWords
{
    /// <summary>The sentence, the reason and what it touches; null for a record of another kind.</summary>
    public static (string What, string? Why, HistoryTarget? Touches)? Of(RecordBody body) => body switch
    {
        DiaryDayBody one => (Say($"Hours of {one.Barge} on {Day(one.WorkingDay)} kept, {one.Entries.Count} lines."), one.Reason, new(HistoryPageName.Diary, Day(one.WorkingDay))),
        WorkPlanBody one => ("The plan of work was revised.", one.Reason, new(HistoryPageName.WorkPlan, "")),
        DayNotesBody one => (Say($"Notes of {Day(one.WorkingDay)} kept."), null, new(HistoryPageName.Diary, Day(one.WorkingDay))),
        DailyReportIssuedBody one => (
            Say($"Daily report of {Day(one.WorkingDay)} issued{(one.Issue > 1 ? Say($", issue {one.Issue}") : "")}, sealed with the head of record {one.HeadSequence}."),
            one.Reason, Report(one.WorkingDay)),
        DailyReportSignedBody one => (
            Say($"Daily report of {Day(one.WorkingDay)}, issue {one.Issue}, {(one.Countersigned ? "countersigned for the owner" : "signed for the contractor")}."), null, Report(one.WorkingDay)),
        DailyReportDisputedBody one => (Say($"Daily report of {Day(one.WorkingDay)}, issue {one.Issue}: a line is disputed, {one.Line}."), one.Text, Report(one.WorkingDay)),
        _ => null,
    };

    private static HistoryTarget Report(LocalDate day) => new(HistoryPageName.DailyReport, Day(day));

    private static string Day(LocalDate day) => LocalDatePattern.Iso.Format(day);

    private static string Say(FormattableString sentence) => sentence.ToString(CultureInfo.InvariantCulture);
}
