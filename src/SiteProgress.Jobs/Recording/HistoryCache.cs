using System.Collections.Concurrent;
using System.Runtime.CompilerServices;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Logs;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Storage.Records;

namespace SiteProgress.Jobs.Recording;

/// <summary>
/// Keeps the last histories of this node, so that an append reads only the records added since. A kept history is used
/// only while the store's record at its end still has the hash it had; else everything is read again.
/// </summary>
[WithoutPermit("It reads for jobs that hold a permit.")]
public sealed class HistoryCache(PileLogStore logs)
{
    private const int MostSites = 4;

    private readonly ConcurrentDictionary<int, Kept> _kept = new();

    private readonly ConcurrentDictionary<int, LogReadings> _readings = new();

    // The history a person last looked back to: a page is read once for the first answer and once when it comes alive.
    private LookedBack? _lookedBack;

    // What was derived lives as long as its history does, and no longer.
    private readonly ConditionalWeakTable<SiteHistory, DerivedSite> _derived = [];

    /// <summary>What follows from a history; worked out once while the history is kept.</summary>
    public DerivedSite DerivedOf(SiteHistory history) => _derived.GetValue(history, SiteDerivation.Derive);

    /// <summary>The history of a site up to the head, read from the store as far as it is not kept.</summary>
    public async Task<SiteHistory> HistoryAsync(RecordLog log, int site, ChainHead head, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(log);
        ArgumentNullException.ThrowIfNull(head);
        Kept from = _kept.TryGetValue(site, out Kept? kept)
            && kept.Head.Sequence <= head.Sequence
            && (await log.HashAtAsync(kept.Head.Sequence, cancellation))?.Equals(kept.Head.Hash) == true
            ? kept
            : new Kept(SiteHistory.Empty.ReadBy(ReadingsOf(site)), new ChainHead(0, ChainHash.BeforeFirst, 0));
        GrowingHistory? growing = null;
        await foreach (RecordEntry record in log.ReadAsync(from.Head.Sequence, cancellation)) (growing ??= from.History.Grow()).Add(record);
        return growing?.Grown() ?? from.History;
    }

    /// <summary>The history of a site as it was after one of its records.</summary>
    public async Task<SiteHistory> HistoryAfterAsync(RecordLog log, int site, long sequence, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(log);
        ChainHash? hash = await log.HashAtAsync(sequence, cancellation);
        if (LookedBackTo(site, sequence, hash) is { } known) return known;
        GrowingHistory growing = SiteHistory.Empty.ReadBy(ReadingsOf(site)).Grow();
        await foreach (RecordEntry record in log.ReadAsync(0, sequence, cancellation)) growing.Add(record);
        SiteHistory history = growing.Grown();
        _lookedBack = hash is null ? null : new LookedBack(site, sequence, hash, new WeakReference<SiteHistory>(history));
        return history;
    }

    /// <summary>The history that records of a site, read from the first on, add up to.</summary>
    public SiteHistory HistoryOf(int site, IReadOnlyList<RecordEntry> records)
    {
        ArgumentNullException.ThrowIfNull(records);
        (long sequence, ChainHash hash) = (records[^1].Sequence, records[^1].Hash);
        if (LookedBackTo(site, sequence, hash) is { } known) return known;
        SiteHistory history = SiteHistory.Empty.ReadBy(ReadingsOf(site)).With(records);
        _lookedBack = new LookedBack(site, sequence, hash, new WeakReference<SiteHistory>(history));
        return history;
    }

    private SiteHistory? LookedBackTo(int site, long sequence, ChainHash? hash)
        => _lookedBack is { } kept && kept.Site == site && kept.Sequence == sequence && kept.Hash.Equals(hash) && kept.History.TryGetTarget(out SiteHistory? known) ? known : null;

    /// <summary>Keeps a history after its records were committed.</summary>
    public void Keep(int site, SiteHistory history, ChainHead head)
    {
        if (_kept.Count >= MostSites && !_kept.ContainsKey(site)) _kept.Clear();
        _kept[site] = new Kept(history, head);
    }

    /// <summary>Readings of the logs of a site; they outlive its history, so that the next one finds them read.</summary>
    private LogReadings ReadingsOf(int site) => _readings.GetOrAdd(site, key => new LogReadings(logs.ShelfOf(key)));

    private sealed record LookedBack(int Site, long Sequence, ChainHash Hash, WeakReference<SiteHistory> History);

    private sealed record Kept(SiteHistory History, ChainHead Head);
}
