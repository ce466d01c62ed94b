namespace SiteProgress.Storage.Records;

/// <summary>One site. Its key begins every other key of schemas record and derived.</summary>
public sealed class SiteRow
{
    /// <summary>Key of the site.</summary>
    public int Site { get; set; }

    /// <summary>Code of the site in addresses and in the canonical form of its records.</summary>
    public required string Code { get; set; }

    /// <summary>When the site was opened.</summary>
    public DateTime OpenedAt { get; set; }
}
