namespace SiteProgress.Storage.Accounts;

/// <summary>
/// A token with which a program of a person reads the HTTP interface. It holds no rights of its own: it acts with those the
/// person has at the moment of each call. The store keeps its hash, never the token.
/// </summary>
public sealed class PersonalToken
{
    /// <summary>SHA-256 of the token's 32 random bytes.</summary>
    public required byte[] Hash { get; init; }

    /// <summary>Whose it is.</summary>
    public required Guid Account { get; init; }

    /// <summary>What the person calls it.</summary>
    public required string Name { get; init; }

    /// <summary>When it was made (UTC).</summary>
    public required DateTimeOffset Created { get; init; }

    /// <summary>The last day (UTC) it was used on; null while it was not.</summary>
    public DateOnly? LastUsedDay { get; set; }

    /// <summary>When it was revoked (UTC); null while it works.</summary>
    public DateTimeOffset? Revoked { get; set; }
}
