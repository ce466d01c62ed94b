using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Exchange;
using SiteProgress.Exchange.CheckMeasurements;
using SiteProgress.Exchange.Diaries;
using SiteProgress.Exchange.Installations;
using SiteProgress.Exchange.PileSchedules;
using SiteProgress.Exchange.SandDeliveries;
using SiteProgress.Exchange.ProgressSchedules;
using SiteProgress.Storage.Records;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>Reads an upload into record bodies, the same way for the preview and for the recording.</summary>
public sealed class UploadReader(UploadStore uploads, TimeProvider clock)
{
    internal async Task<ReadUpload?> ReadAsync(int site, Guid upload, SiteSettings settings, UploadChoices choices, CancellationToken cancellation)
    {
        UploadRow? row = await uploads.FindAsync(site, upload, cancellation);
        if (row is null) return null;
        ReadingChoices reading = ReadingChoices.For(settings, Instant.FromDateTimeOffset(clock.GetUtcNow())) with
        {
            Frame = choices.Frame,
            DayMonthOrder = choices.DayMonthOrder,
        };
        BatchContent? content = choices.Content;
        ImportProblem? unknown = null;
        if (content is null)
        {
            await using Stream head = uploads.Open(site, upload);
            FileKindGuess guess = FileKindGuess.From(head, reading, cancellation);
            content = ContentOf(guess.Kind);
            unknown = guess.Problem ?? new ImportProblem(0, null, guess.Reason, "planned piles, installations, check measurements or sand deliveries", true);
        }

        await using Stream bytes = uploads.Open(site, upload);
        return content switch
        {
            BatchContent.PlannedPiles => Read(row, content.Value, PlannedPileReader.Read(bytes, reading, cancellation), one => new PilePlannedBody(one.Line, one.Value)),
            BatchContent.Installations => Read(row, content.Value, InstallationReader.Read(bytes, reading, cancellation), one => new PileInstalledBody(one.Line, one.Value)),
            BatchContent.CheckMeasurements => Read(row, content.Value, CheckMeasurementReader.Read(bytes, reading, cancellation), one => new PositionCheckedBody(one.Line, one.Value)),
            BatchContent.SandDeliveries => Read(row, content.Value, SandDeliveryReader.Read(bytes, reading, cancellation), one => new SandDeliveredBody(one.Line, one.Value)),
            BatchContent.DiaryEntries => Read(row, content.Value, DiaryReader.Read(bytes, reading, cancellation), one => new DiaryLineBody(one.Line, one.Value)),
            BatchContent.PlannedProgress => Read(row, content.Value, PlannedProgressReader.Read(bytes, reading, cancellation), one => new ProgressPlannedBody(one.Line, one.Value)),
            _ => new ReadUpload(row, null, [], [unknown!], 1, [], 0, [], 0, []),
        };
    }

    private static BatchContent? ContentOf(FileKind kind) => kind switch
    {
        FileKind.PlannedPiles => BatchContent.PlannedPiles,
        FileKind.Installations => BatchContent.Installations,
        FileKind.CheckMeasurements => BatchContent.CheckMeasurements,
        FileKind.SandDeliveries => BatchContent.SandDeliveries,
        FileKind.DiaryEntries => BatchContent.DiaryEntries,
        FileKind.PlannedProgress => BatchContent.PlannedProgress,
        _ => null,
    };

    private static ReadUpload Read<T>(UploadRow row, BatchContent content, TableReading<T> reading, Func<ReadRow<T>, RecordBody> body) => new(
        row, content, reading.IsRefused ? [] : reading.Rows.Select(body).ToArray(),
        reading.Problems, reading.ProblemCount, reading.Warnings, reading.WarningCount, reading.Assumptions, reading.RowsRead, reading.LinesLeftOut);
}

/// <summary>What a person chose where the file does not say.</summary>
/// <param name="Content">What the rows are; null to go by the header.</param>
/// <param name="Frame">Frame of the positions; null to go by the header.</param>
/// <param name="DayMonthOrder">Order of day and month in dates with slashes; null to take only what a column proves.</param>
public sealed record UploadChoices(BatchContent? Content, Frame? Frame, DayMonthOrder? DayMonthOrder)
{
    /// <summary>Everything as the file says.</summary>
    public static UploadChoices AsTheFileSays { get; } = new(null, null, null);
}

/// <summary>An upload as read.</summary>
internal sealed record ReadUpload(
    UploadRow Upload,
    BatchContent? Content,
    IReadOnlyList<RecordBody> Rows,
    IReadOnlyList<ImportProblem> Problems,
    int ProblemCount,
    IReadOnlyList<ImportProblem> Warnings,
    int WarningCount,
    IReadOnlyList<string> Assumptions,
    int RowsRead,
    IReadOnlyList<long> LinesLeftOut)
{
    public bool Refused => Content is null || Problems.Any(problem => problem.WholeFile) || Rows.Count == 0;

    public IReadOnlyList<RecordBody> Bodies(int adjustmentRevision) =>
    [
        new BatchBody(
            Upload.Upload, Upload.FileName, Upload.Sha256, Content!.Value, adjustmentRevision, RowsRead, Rows.Count, LinesLeftOut, Assumptions),
        .. Rows,
    ];
}
