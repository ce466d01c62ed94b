using SiteProgress.Core.Records;
using SiteProgress.Exchange;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;
using SiteProgress.Storage.Records;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>Records an upload: all its good rows in one transaction, or nothing.</summary>
public sealed class RecordUpload(UploadReader reader, SiteHistories histories, SiteRecorder recorder, PileLogStore logs)
{
    /// <summary>Records a file.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="upload">Key of the upload.</param>
    /// <param name="choices">What the person chose where the file does not say.</param>
    /// <param name="leaveOutProblems">True when the person decided to record the good rows and leave the others out.</param>
    /// <param name="cancellation">Stops the work; nothing is recorded then.</param>
    /// <returns>The batch, or why nothing was recorded.</returns>
    [Needs(Right.BringIn)]
    public async Task<RecordingResult> RunAsync(
        Permit permit, Guid upload, UploadChoices choices, bool leaveOutProblems, CancellationToken cancellation)
    {
        permit.Demand(Right.BringIn);
        SiteHistory before = await histories.ReadAsync(permit.Site, cancellation);
        ReadUpload? read = await reader.ReadAsync(permit, upload, before, choices, cancellation);
        if (read is null) return RecordingResult.Refused("There is no such upload on this site.");
        if (read is { Refused: false, ProblemCount: > 0 } && !leaveOutProblems)
        {
            return RecordingResult.Refused(
                $"{read.LinesLeftOut.Count} lines cannot be recorded. Mend the file, or say that the good rows are to be recorded without them.", read.Problems);
        }

        // Samples lie under their hash before a record names it, so that no record is ever without them.
        if (RecordingRules.WhyNot(permit, before, read) is null) await logs.KeepAsync(permit.Site, read.Logs, cancellation);
        (string? refusal, int rows) = (null, read.RowsRecorded ?? read.Rows.Count);
        RecordedRange range = await recorder.AppendAsync(
            permit,
            Right.BringIn,
            history =>
            {
                refusal = RecordingRules.WhyNot(permit, history, read);
                IReadOnlyList<RecordBody> bodies = refusal is null ? read.Bodies(history.Adjustments[^1].Adjustment.Revision) : [];
                // They go with the recording: a large file is not to lie beside the site that is derived from it.
                read = read with { Rows = [] };
                return bodies;
            },
            cancellation);
        return refusal is null ? new RecordingResult(range.First, rows, null, []) : RecordingResult.Refused(refusal, read.Problems);
    }
}

/// <summary>What became of a recording.</summary>
/// <param name="Batch">Sequence of the batch.</param>
/// <param name="Rows">Rows recorded.</param>
/// <param name="Refusal">Why nothing was recorded.</param>
/// <param name="Problems">The problems of the file by line, where nothing was recorded.</param>
public sealed record RecordingResult(long? Batch, int Rows, string? Refusal, IReadOnlyList<ImportProblem> Problems)
{
    internal static RecordingResult Refused(string reason, IReadOnlyList<ImportProblem>? problems = null) => new(null, 0, reason, problems ?? []);
}
