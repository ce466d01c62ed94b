namespace SiteProgress.Web.Shell;

/// <summary>A frame a person drew on a chart, in the units of its axes.</summary>
/// <param name="XFrom">Left edge.</param>
/// <param name="XTo">Right edge.</param>
/// <param name="YFrom">Lower edge.</param>
/// <param name="YTo">Upper edge.</param>
public sealed record ChartFrame(double XFrom, double XTo, double YFrom, double YTo);
