namespace SiteProgress.Storage.Accounts;

/// <summary>
/// What the store keeps of the secret of a sender's key: its hash. What the key may do, and whether it still works, follows from
/// the site's records; a secret whose key no record names opens nothing.
/// </summary>
public sealed class SenderSecret
{
    /// <summary>SHA-256 of the 32 random bytes.</summary>
    public required byte[] Hash { get; init; }

    /// <summary>Key of the site it opens.</summary>
    public required int Site { get; init; }

    /// <summary>The key it belongs to.</summary>
    public required Guid Key { get; init; }

    /// <summary>When it was last used (UTC), to the minute; null while it was not.</summary>
    public DateTimeOffset? LastUsed { get; set; }
}
