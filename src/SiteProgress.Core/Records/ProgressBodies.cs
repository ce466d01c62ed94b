using NodaTime;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Records;

/// <summary>One row of a diary that came in as a file.</summary>
/// <param name="Line">Line of the file, from 1.</param>
/// <param name="Entry">What the row says.</param>
public sealed record DiaryLineBody(long Line, DiaryEntry Entry) : RecordBody, IRowBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.DiaryEntered;
}

/// <summary>A barge's hours of one working day as kept on the page; they replace whatever was there for that barge and day.</summary>
/// <param name="WorkingDay">Working day.</param>
/// <param name="Barge">Barge.</param>
/// <param name="Entries">The hours, in order; each names the same barge and day.</param>
/// <param name="Reason">Why hours that were there already are replaced.</param>
public sealed record DiaryDayBody(LocalDate WorkingDay, string Barge, IReadOnlyList<DiaryEntry> Entries, string? Reason) : RecordBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.DiaryDayKept;
}

/// <summary>One row of a schedule of progress.</summary>
/// <param name="Line">Line of the file, from 1.</param>
/// <param name="Planned">What the row says.</param>
public sealed record ProgressPlannedBody(long Line, PlannedProgress Planned) : RecordBody, IRowBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.ProgressPlanned;
}

/// <summary>The plan of work was revised.</summary>
/// <param name="Plan">The plan, whole.</param>
/// <param name="Reason">Why.</param>
public sealed record WorkPlanBody(WorkPlan Plan, string Reason) : RecordBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.WorkPlanRevised;
}

/// <summary>Notes of a working day; they replace those that were there.</summary>
/// <param name="WorkingDay">Working day.</param>
/// <param name="Notes">The notes, whole.</param>
public sealed record DayNotesBody(LocalDate WorkingDay, DayNotes Notes) : RecordBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.DayNotesKept;
}

/// <summary>A daily report was issued: its figures as they stood, under the chain's head at that moment.</summary>
/// <param name="WorkingDay">Working day.</param>
/// <param name="Issue">Issue of that day's report, from 1.</param>
/// <param name="Content">The report as JSON, exactly as shown from then on.</param>
/// <param name="HeadSequence">Sequence of the last record the report follows from.</param>
/// <param name="HeadHash">Hash of the chain at that record, hexadecimal.</param>
/// <param name="Reason">Why an issue after the first was made.</param>
public sealed record DailyReportIssuedBody(
    LocalDate WorkingDay, int Issue, string Content, long HeadSequence, string HeadHash, string? Reason) : RecordBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.DailyReportIssued;
}

/// <summary>A daily report was signed by the contractor's side or countersigned by the owner's.</summary>
/// <param name="WorkingDay">Working day.</param>
/// <param name="Issue">Issue.</param>
/// <param name="Countersigned">True for the owner's side.</param>
public sealed record DailyReportSignedBody(LocalDate WorkingDay, int Issue, bool Countersigned) : RecordBody
{
    /// <inheritdoc />
    public override RecordKind Kind => Countersigned ? RecordKind.DailyReportCountersigned : RecordKind.DailyReportSigned;
}

/// <summary>The owner's side disputes a line of a daily report.</summary>
/// <param name="WorkingDay">Working day.</param>
/// <param name="Issue">Issue.</param>
/// <param name="Line">The line, as the report names it.</param>
/// <param name="Text">What is disputed and why.</param>
public sealed record DailyReportDisputedBody(LocalDate WorkingDay, int Issue, string Line, string Text) : RecordBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.DailyReportDisputed;
}
