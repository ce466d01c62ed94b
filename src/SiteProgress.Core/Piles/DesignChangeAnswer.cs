namespace SiteProgress.Core.Piles;

/// <summary>What is decided about a pile whose design was changed after it was built.</summary>
public enum DesignChangeAnswer
{
    /// <summary>It stays as it was built, judged by the design it was built by.</summary>
    KeepAsBuilt = 1,

    /// <summary>It is judged by the new design: what does not meet that is a finding, and is treated like any other.</summary>
    HoldAgainstNewDesign = 2,
}
