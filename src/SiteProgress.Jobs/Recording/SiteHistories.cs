using Npgsql;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Storage.Records;

namespace SiteProgress.Jobs.Recording;

/// <summary>Reads the history of a site outside any transaction of a writer.</summary>
[WithoutPermit("It reads for jobs that hold a permit.")]
public sealed class SiteHistories(NpgsqlDataSource store, HistoryCache cache)
{
    /// <summary>What follows from the records up to the last committed one.</summary>
    public async Task<DerivedSite> ReadDerivedAsync(int site, CancellationToken cancellation)
        => cache.DerivedOf(await ReadAsync(site, cancellation));

    /// <summary>What followed from the records up to one of them, by the rules of today.</summary>
    public async Task<DerivedSite> ReadDerivedAfterAsync(int site, long sequence, CancellationToken cancellation)
    {
        await using NpgsqlConnection connection = await store.OpenConnectionAsync(cancellation);
        return cache.DerivedOf(await cache.HistoryAfterAsync(new RecordLog(connection, site), site, sequence, cancellation));
    }

    /// <summary>What follows from the records of a site, read from the first on, by the rules of today.</summary>
    public DerivedSite DerivedOf(int site, IReadOnlyList<RecordEntry> records) => cache.DerivedOf(cache.HistoryOf(site, records));

    /// <summary>The history up to the last committed record.</summary>
    public async Task<SiteHistory> ReadAsync(int site, CancellationToken cancellation)
    {
        await using NpgsqlConnection connection = await store.OpenConnectionAsync(cancellation);
        RecordLog log = new(connection, site);
        ChainHead head = await log.HeadAsync(cancellation);
        SiteHistory history = await cache.HistoryAsync(log, site, head, cancellation);

        // What was committed between the two readings is in the history and not in the head; the next reading keeps it.
        if (history.Sequence == head.Sequence) cache.Keep(site, history, head);
        return history;
    }
}
