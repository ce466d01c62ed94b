using NodaTime;

namespace SiteProgress.Core.Records;

/// <summary>What a pile schedule says of the piles it does not name.</summary>
public enum DesignScope
{
    /// <summary>It adds piles and changes those it names; all others stay.</summary>
    Amends = 1,

    /// <summary>It is the whole design of the zones it names: piles of these zones that it does not name are taken out.</summary>
    Zones = 2,

    /// <summary>It is the whole design of the site: piles that it does not name are taken out.</summary>
    Site = 3,
}

/// <summary>What a batch of planned piles says of itself as a revision of the design.</summary>
/// <param name="Scope">What it says of piles it does not name.</param>
/// <param name="InForceFrom">From when it holds: piles built before are judged by the design before it. Null: as if it had always been so.</param>
/// <param name="Name">What the designer calls it.</param>
/// <param name="Zones">Zones whose whole design it is; null unless its scope are zones.</param>
public sealed record DesignStatement(DesignScope Scope, Instant? InForceFrom, string? Name = null, IReadOnlyList<string>? Zones = null);
