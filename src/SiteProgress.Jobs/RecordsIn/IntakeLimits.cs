namespace SiteProgress.Jobs.RecordsIn;

/// <summary>How much a site may bring in. From the configuration, section <c>Intake</c>.</summary>
public sealed class IntakeLimits
{
    /// <summary>Longest file, bytes.</summary>
    public long LargestFileBytes { get; set; } = 200L << 20;

    /// <summary>Least bytes per second at which a file must arrive, once the grace is over; a slower sender is let go.</summary>
    public double LeastBytesPerSecond { get; set; } = 240;

    /// <summary>Seconds before the rate counts.</summary>
    public double GraceSeconds { get; set; } = 10;

    /// <summary>All files of a site together, bytes.</summary>
    public long SiteQuotaBytes { get; set; } = 20L << 30;
}
