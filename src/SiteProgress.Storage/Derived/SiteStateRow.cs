namespace SiteProgress.Storage.Derived;

/// <summary>How far the derived state of a site reaches, and by which rules it was made. The row is the site's lock.</summary>
public sealed class SiteStateRow
{
    /// <summary>Key of the site.</summary>
    public int Site { get; set; }

    /// <summary>Sequence of the last record it follows from.</summary>
    public long Sequence { get; set; }

    /// <summary>Head of the chain at that record.</summary>
    public required byte[] Hash { get; set; }

    /// <summary>Version of the rules that made it.</summary>
    public int RulesVersion { get; set; }

    /// <summary>Settings in force, as JSON.</summary>
    public string? Settings { get; set; }

    /// <summary>Site drawing in force, GeoJSON in latitude and longitude for the map.</summary>
    public string? Drawing { get; set; }

    /// <summary>Adjustment in force, as JSON: parameters and control points with residuals.</summary>
    public string? Adjustment { get; set; }
}

/// <summary>Who holds which role on a site.</summary>
public sealed class SiteRoleRow : IDerivedRow
{
    /// <summary>Key of the site.</summary>
    public int Site { get; set; }

    /// <summary>The account.</summary>
    public Guid Account { get; set; }

    /// <summary>The role.</summary>
    public short Role { get; set; }

    /// <summary>Digest of the row, by which a change is noticed.</summary>
    public Guid Digest { get; set; }
}
