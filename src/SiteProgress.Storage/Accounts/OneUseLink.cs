namespace SiteProgress.Storage.Accounts;

/// <summary>What a one-use link lets its holder do.</summary>
public enum LinkPurpose
{
    /// <summary>Set the password of the account it was made for.</summary>
    SetPassword = 1,

    /// <summary>Make the first account of an empty store, from the same machine only.</summary>
    FirstAdministrator = 2,
}

/// <summary>A link that works once and not for long. The store keeps the hash of its secret, never the secret.</summary>
public sealed class OneUseLink
{
    /// <summary>SHA-256 of the secret in the link.</summary>
    public required byte[] Hash { get; init; }

    /// <summary>What it is for.</summary>
    public required LinkPurpose Purpose { get; init; }

    /// <summary>The account it was made for; null for the first administrator, who has none yet.</summary>
    public Guid? Account { get; init; }

    /// <summary>After this instant (UTC) it opens nothing.</summary>
    public required DateTimeOffset Expires { get; init; }

    /// <summary>When it was used (UTC); null while it waits.</summary>
    public DateTimeOffset? Used { get; set; }
}
