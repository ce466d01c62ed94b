using NodaTime;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Records;

/// <summary>A record with who recorded it and when.</summary>
/// <typeparam name="T">What it says.</typeparam>
/// <param name="Sequence">Sequence of the record.</param>
/// <param name="At">When.</param>
/// <param name="By">By whom.</param>
/// <param name="Body">What it says.</param>
public sealed record Kept<T>(long Sequence, Instant At, string By, T Body);

/// <summary>Gathers the records of diary, schedule and daily reports; the part of <see cref="HistoryBuilder"/> that deals with progress.</summary>
internal sealed class ProgressRecords
{
    public List<BatchRow<DiaryEntry>> DiaryLines { get; private init; } = [];

    public List<Kept<DiaryDayBody>> DiaryDays { get; private init; } = [];

    public List<BatchRow<PlannedProgress>> Planned { get; private init; } = [];

    public Kept<WorkPlanBody>? Plan { get; private set; }

    public Dictionary<LocalDate, Kept<DayNotesBody>> Notes { get; private init; } = [];

    public List<Kept<RecordBody>> Reports { get; private init; } = [];

    public ProgressRecords Copy() => new()
    {
        DiaryLines = [.. DiaryLines],
        DiaryDays = [.. DiaryDays],
        Planned = [.. Planned],
        Plan = Plan,
        Notes = new Dictionary<LocalDate, Kept<DayNotesBody>>(Notes),
        Reports = [.. Reports],
    };

    /// <summary>Takes a record of this part.</summary>
    /// <returns>False where the record belongs to another part.</returns>
    public bool Add(RecordEntry record, RecordBody body)
    {
        switch (body)
        {
            case DiaryLineBody one: DiaryLines.Add(HistoryBuilder.Row(record, one.Line, one.Entry)); return true;
            case ProgressPlannedBody one: Planned.Add(HistoryBuilder.Row(record, one.Line, one.Planned)); return true;
            case DiaryDayBody one: DiaryDays.Add(Of(record, one)); return true;
            case WorkPlanBody one: Plan = Of(record, one); return true;
            case DayNotesBody one: Notes[one.WorkingDay] = Of(record, one); return true;
            case DailyReportIssuedBody or DailyReportSignedBody or DailyReportDisputedBody: Reports.Add(Of(record, body)); return true;
            default: return false;
        }
    }

    private static Kept<T> Of<T>(RecordEntry record, T body) => new(record.Sequence, record.RecordedAt, record.RecordedBy, body);
}
