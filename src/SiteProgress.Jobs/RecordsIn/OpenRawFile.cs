using Microsoft.EntityFrameworkCore;
using SiteProgress.Jobs.Access;
using SiteProgress.Storage;
using SiteProgress.Storage.Derived;
using SiteProgress.Storage.Records;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>Gives the raw bytes of a batch's file, as they came in.</summary>
public sealed class OpenRawFile(IDbContextFactory<SiteProgressDb> database, UploadStore uploads)
{
    /// <summary>The file of a batch, withdrawn or not; null where the site has no such batch.</summary>
    [Needs(Right.See)]
    public async Task<RawFile?> RunAsync(Permit permit, long batch, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        await using SiteProgressDb db = await database.CreateDbContextAsync(cancellation);
        BatchRow? row = await db.Set<BatchRow>().AsNoTracking()
            .FirstOrDefaultAsync(one => one.Site == permit.Site && one.Batch == batch, cancellation);
        return row is null ? null : new RawFile(row.FileName, uploads.Open(permit.Site, row.Upload));
    }
}

/// <summary>A file as it came in.</summary>
/// <param name="FileName">Its name.</param>
/// <param name="Bytes">Its bytes; to be closed.</param>
public sealed record RawFile(string FileName, Stream Bytes);
