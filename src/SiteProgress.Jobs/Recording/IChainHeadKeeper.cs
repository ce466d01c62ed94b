using NodaTime;
using SiteProgress.Storage.Records;

namespace SiteProgress.Jobs.Recording;

/// <summary>
/// Keeps the head of each site's chain outside the store. Whoever alters the store and recomputes its hashes still
/// contradicts the heads kept elsewhere.
/// </summary>
public interface IChainHeadKeeper
{
    /// <summary>Keeps a head.</summary>
    Task KeepAsync(string siteCode, ChainHead head, Instant at, CancellationToken cancellation);

    /// <summary>Heads kept of a site, oldest first.</summary>
    Task<IReadOnlyList<KeptHead>> ReadAsync(string siteCode, CancellationToken cancellation);
}

/// <summary>A head as kept outside the store.</summary>
/// <param name="Sequence">Sequence of the record.</param>
/// <param name="Hash">Its hash, 64 hexadecimal digits.</param>
/// <param name="At">When it was kept.</param>
public sealed record KeptHead(long Sequence, string Hash, string At);
