using NodaTime;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Design;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>Reads an upload and says, by the very rules that recording will use, what recording it would do.</summary>
public sealed class PreviewUpload(UploadReader reader, SiteHistories histories)
{
    private const int RowsShown = 20;

    /// <summary>The preview, or null where the site has no such upload.</summary>
    [Needs(Right.BringIn)]
    public async Task<UploadPreview?> RunAsync(Permit permit, Guid upload, UploadChoices choices, CancellationToken cancellation)
    {
        permit.Demand(Right.BringIn);
        SiteHistory history = await histories.ReadAsync(permit.Site, cancellation);
        ReadUpload? read = await reader.ReadAsync(permit, upload, history, choices, cancellation);
        if (read is null) return null;
        DerivedSite? after = read.Refused ? null : Suppose(history, read);
        DerivedInstallation[] here = after is null ? [] : after.Installations.Where(one => one.Located.Batch == history.Sequence + 1).ToArray();
        Batch? same = RecordingRules.SameBytes(history, read.Upload.Sha256);
        return new UploadPreview(
            upload, read.Upload.FileName, read.Upload.ByteLength, read.Content, read.RowsRead, read.Rows.Count,
            read.ProblemCount, read.Problems, read.LinesLeftOut, read.WarningCount, read.Warnings, read.Assumptions,
            after is null || same is not null ? [] : BatchSuspicions.Of(read, here, after, history.Sequence),
            same?.Sequence,
            RecordingRules.WhyNot(permit, history, read),
            read.Content == BatchContent.PlannedPiles ? DesignChanges.Of(history, read.Rows) : null,
            here.GroupBy(one => one.Match.Outcome).ToDictionary(group => group.Key, group => group.Count()),
            FirstRows(read, here, after, history.Sequence + 1),
            history.Settings!)
        {
            Difference = read.RevisesDesign && after is not null ? await CompareAsync(permit, after, cancellation) : null,
            Revision = read.Design,
            RevisesDesign = read.RevisesDesign,
            HasDesign = read.Content == BatchContent.PlannedPiles && history.Planned.Any(),
            Header = read.Header,
            Questions = read.Questions,
            Choices = read.Choices,
            Remembered = read.Remembered,
        };
    }

    private async Task<DesignComparison?> CompareAsync(Permit permit, DerivedSite after, CancellationToken cancellation)
    {
        DerivedSite now = await histories.ReadDerivedAsync(permit.Site, cancellation);
        return now.Design is null || after.Design is null ? null : DesignComparison.Of(now, now.Design.After(int.MaxValue), after.Design.After(int.MaxValue));
    }

    private static BatchLine[] FirstRows(ReadUpload read, DerivedInstallation[] here, DerivedSite? after, long batch)
    {
        Dictionary<long, DerivedLog> logs = after?.Logs.Where(log => log.Row.Batch == batch).Take(RowsShown).ToDictionary(log => log.Row.Line) ?? [];
        Dictionary<long, DerivedInstallation> derived = here.Take(RowsShown).ToDictionary(one => one.Line);
        return read.Rows.Take(RowsShown).Select(row => (Row: row, Line: LineOf(row), Of: derived.GetValueOrDefault(LineOf(row))))
            .Select(one => new BatchLine(one.Line, null, one.Row, one.Of?.Match) { Log = LogLine.Of(logs.GetValueOrDefault(one.Line)), Levels = one.Of?.Levels }).ToArray();
    }

    internal static long LineOf(RecordBody row) => row is IRowBody { Line: var line } ? line : 0;

    /// <summary>The site as it would be with a file recorded.</summary>
    internal static DerivedSite Suppose(SiteHistory history, ReadUpload read)
    {
        int revision = history.Adjustments.Count == 0 ? 0 : history.Adjustments[^1].Adjustment.Revision;
        return SiteDerivation.Derive(SupposedHistory.With(history.ReadBy(history.Readings.Beside(read.Logs)), read.Bodies(revision)));
    }
}
