namespace SiteProgress.Storage.Derived;

/// <summary>A row that follows from the records of a site and is written again when they say otherwise.</summary>
public interface IDerivedRow
{
    /// <summary>Key of the site.</summary>
    int Site { get; set; }

    /// <summary>Digest of every other column, by which a change is noticed.</summary>
    Guid Digest { get; set; }
}
