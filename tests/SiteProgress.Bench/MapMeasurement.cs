namespace SiteProgress.Bench;

/// <summary>What one round of the map bench measured, milliseconds.</summary>
public sealed record MapMeasurement(double FirstPaintMilliseconds, double WorstFrameMilliseconds);
