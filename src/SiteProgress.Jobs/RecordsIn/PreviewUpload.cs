using NodaTime;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
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
        ReadUpload? read = await reader.ReadAsync(permit.Site, upload, history.Settings!, choices, cancellation);
        if (read is null) return null;
        Batch? before = RecordUpload.SameBytes(history, read.Upload.Sha256);
        DerivedSite? after = read.Refused ? null : Suppose(history, read);
        DerivedInstallation[] here = after is null ? [] : after.Installations.Where(one => one.Located.Batch == history.Sequence + 1).ToArray();
        return new UploadPreview(
            upload, read.Upload.FileName, read.Upload.ByteLength, read.Content, read.RowsRead, read.Rows.Count,
            read.ProblemCount, read.Problems, read.Warnings, read.Assumptions,
            BatchSuspicions.Of(here, after),
            before?.Sequence,
            !read.Refused && before is null,
            read.Content == BatchContent.PlannedPiles ? DesignChanges.Of(history, read.Rows) : null,
            here.GroupBy(one => one.Match.Outcome).ToDictionary(group => group.Key, group => group.Count()),
            read.Rows.Take(RowsShown).ToArray());
    }

    private static DerivedSite Suppose(SiteHistory history, ReadUpload read)
    {
        int revision = history.Adjustments.Count == 0 ? 0 : history.Adjustments[^1].Adjustment.Revision;
        long sequence = history.Sequence;
        long batch = sequence + 1;
        SiteHistory supposed = history.With(read.Bodies(revision).Select(body => new RecordEntry(
            ++sequence, body.Kind, Instant.MinValue, "", body is BatchBody ? null : batch, RecordJson.ToBytes(body), ChainHash.BeforeFirst)));
        return SiteDerivation.Derive(supposed);
    }
}

