namespace SiteProgress.Jobs.RecordsIn;

/// <summary>How much a site may bring in. From the configuration, section <c>Intake</c>.</summary>
public sealed class IntakeLimits
{
    /// <summary>Longest file, bytes.</summary>
    public long LargestFileBytes { get; set; } = 100L << 20;

    /// <summary>All files of a site together, bytes.</summary>
    public long SiteQuotaBytes { get; set; } = 20L << 30;
}
