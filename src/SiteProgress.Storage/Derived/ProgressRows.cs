using System.Text.Json;
using NodaTime;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Records;

namespace SiteProgress.Storage.Derived;

/// <summary>One entry of the diary in force.</summary>
public sealed class DiaryLineRow : IDerivedRow
{
    /// <inheritdoc />
    public int Site { get; set; }

    /// <summary>Working day.</summary>
    public DateOnly WorkingDay { get; set; }

    /// <summary>Barge.</summary>
    public required string Barge { get; set; }

    /// <summary>Place among the entries of the day and barge, from 1.</summary>
    public int Place { get; set; }

    /// <summary>What was done.</summary>
    public required string Activity { get; set; }

    /// <summary>Why.</summary>
    public string? Cause { get; set; }

    /// <summary>Who bears it.</summary>
    public string? BorneBy { get; set; }

    /// <summary>Hours.</summary>
    public double Hours { get; set; }

    /// <summary>Remark.</summary>
    public string? Remark { get; set; }

    /// <summary>Sequence of the record it comes from.</summary>
    public long Sequence { get; set; }

    /// <inheritdoc />
    public Guid Digest { get; set; }
}

/// <summary>One row of the schedule of progress in force.</summary>
public sealed class PlannedProgressRow : IDerivedRow
{
    /// <inheritdoc />
    public int Site { get; set; }

    /// <summary>Zone; empty for the whole site.</summary>
    public required string Zone { get; set; }

    /// <summary>Working day.</summary>
    public DateOnly Day { get; set; }

    /// <summary>Piles planned to stand by its end.</summary>
    public int CumulativePiles { get; set; }

    /// <inheritdoc />
    public Guid Digest { get; set; }
}

/// <summary>The plan of work in force.</summary>
public sealed class WorkPlanRow : IDerivedRow
{
    /// <inheritdoc />
    public int Site { get; set; }

    /// <summary>Sequence of the record it comes from.</summary>
    public long Sequence { get; set; }

    /// <summary>The plan, as JSON.</summary>
    public required string Plan { get; set; }

    /// <summary>Why it was revised.</summary>
    public required string Reason { get; set; }

    /// <summary>When (UTC).</summary>
    public DateTime RecordedAt { get; set; }

    /// <summary>By whom.</summary>
    public required string RecordedBy { get; set; }

    /// <inheritdoc />
    public Guid Digest { get; set; }
}

/// <summary>Notes of a working day.</summary>
public sealed class DayNotesRow : IDerivedRow
{
    /// <inheritdoc />
    public int Site { get; set; }

    /// <summary>Working day.</summary>
    public DateOnly WorkingDay { get; set; }

    /// <summary>The notes, as JSON.</summary>
    public required string Notes { get; set; }

    /// <summary>Sequence of the record it comes from.</summary>
    public long Sequence { get; set; }

    /// <summary>When (UTC).</summary>
    public DateTime RecordedAt { get; set; }

    /// <summary>By whom.</summary>
    public required string RecordedBy { get; set; }

    /// <inheritdoc />
    public Guid Digest { get; set; }
}

/// <summary>One issue of a daily report.</summary>
public sealed class DailyReportRow : IDerivedRow
{
    /// <inheritdoc />
    public int Site { get; set; }

    /// <summary>Working day.</summary>
    public DateOnly WorkingDay { get; set; }

    /// <summary>Issue, from 1.</summary>
    public int Issue { get; set; }

    /// <summary>Sequence of the record that issued it.</summary>
    public long Sequence { get; set; }

    /// <summary>The report, as JSON text exactly as issued.</summary>
    public required string Content { get; set; }

    /// <summary>Sequence of the last record it follows from.</summary>
    public long HeadSequence { get; set; }

    /// <summary>Hash of the chain at that record.</summary>
    public required string HeadHash { get; set; }

    /// <summary>Why an issue after the first was made.</summary>
    public string? Reason { get; set; }

    /// <summary>When it was issued (UTC).</summary>
    public DateTime IssuedAt { get; set; }

    /// <summary>Who issued it.</summary>
    public required string IssuedBy { get; set; }

    /// <summary>When the contractor signed (UTC).</summary>
    public DateTime? SignedAt { get; set; }

    /// <summary>Who signed.</summary>
    public string? SignedBy { get; set; }

    /// <summary>When the owner countersigned (UTC).</summary>
    public DateTime? CountersignedAt { get; set; }

    /// <summary>Who countersigned.</summary>
    public string? CountersignedBy { get; set; }

    /// <summary>Disputed lines, as JSON.</summary>
    public required string Disputes { get; set; }

    /// <inheritdoc />
    public Guid Digest { get; set; }
}

/// <summary>Diary, schedule and daily reports as rows.</summary>
public static class ProgressRows
{
    /// <summary>The diary in force.</summary>
    public static DiaryLineRow[] Diary(DerivedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return site.Progress.Diary.Select(line => new DiaryLineRow
        {
            WorkingDay = line.Entry.WorkingDay.ToDateOnly(),
            Barge = line.Entry.Barge,
            Place = line.Place,
            Activity = line.Entry.Activity,
            Cause = line.Entry.Cause,
            BorneBy = line.Entry.BorneBy,
            Hours = (double)line.Entry.Hours,
            Remark = line.Entry.Remark,
            Sequence = line.Sequence,
        }).ToArray();
    }

    /// <summary>The schedule of progress in force.</summary>
    public static PlannedProgressRow[] Planned(DerivedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return site.Progress.Planned.Select(row => new PlannedProgressRow
        {
            Zone = row.Zone ?? "",
            Day = row.Day.ToDateOnly(),
            CumulativePiles = row.CumulativePiles,
        }).ToArray();
    }

    /// <summary>The plan of work in force; one row or none.</summary>
    public static WorkPlanRow[] Plan(DerivedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return site.Progress.Plan is not { } plan
            ? []
            : [new WorkPlanRow
            {
                Sequence = plan.Sequence,
                Plan = JsonSerializer.Serialize(plan.Body.Plan, RecordJson.Options),
                Reason = plan.Body.Reason,
                RecordedAt = plan.At.ToDateTimeUtc(),
                RecordedBy = plan.By,
            }];
    }

    /// <summary>Notes of working days.</summary>
    public static DayNotesRow[] Notes(DerivedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return site.Progress.Notes.Select(note => new DayNotesRow
        {
            WorkingDay = note.Body.WorkingDay.ToDateOnly(),
            Notes = JsonSerializer.Serialize(note.Body.Notes, RecordJson.Options),
            Sequence = note.Sequence,
            RecordedAt = note.At.ToDateTimeUtc(),
            RecordedBy = note.By,
        }).ToArray();
    }

    /// <summary>Daily reports.</summary>
    public static DailyReportRow[] Reports(DerivedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return site.Progress.Reports.Select(report => new DailyReportRow
        {
            WorkingDay = report.Issued.Body.WorkingDay.ToDateOnly(),
            Issue = report.Issued.Body.Issue,
            Sequence = report.Issued.Sequence,
            Content = report.Issued.Body.Content,
            HeadSequence = report.Issued.Body.HeadSequence,
            HeadHash = report.Issued.Body.HeadHash,
            Reason = report.Issued.Body.Reason,
            IssuedAt = report.Issued.At.ToDateTimeUtc(),
            IssuedBy = report.Issued.By,
            SignedAt = report.ContractorSigned?.At.ToDateTimeUtc(),
            SignedBy = report.ContractorSigned?.By,
            CountersignedAt = report.OwnerSigned?.At.ToDateTimeUtc(),
            CountersignedBy = report.OwnerSigned?.By,
            Disputes = JsonSerializer.Serialize(
                report.Disputes.Select(one => new ReportDispute(one.Sequence, one.At.ToDateTimeUtc(), one.By, one.Body.Line, one.Body.Text)), RecordJson.Options),
        }).ToArray();
    }
}

/// <summary>A disputed line of a daily report, as its row keeps it.</summary>
/// <param name="Sequence">Sequence of the record.</param>
/// <param name="At">When (UTC).</param>
/// <param name="By">By whom.</param>
/// <param name="Line">The line.</param>
/// <param name="Text">What is disputed and why.</param>
public sealed record ReportDispute(long Sequence, DateTime At, string By, string Line, string Text);
