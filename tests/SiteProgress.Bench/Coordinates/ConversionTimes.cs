namespace SiteProgress.Bench.Coordinates;

/// <summary>What one contender took for all points, and what it made of them.</summary>
/// <param name="ThereMilliseconds">Site grid to latitude and longitude.</param>
/// <param name="BackMilliseconds">Latitude and longitude to site grid.</param>
/// <param name="Values">Latitudes and longitudes (degrees) of all points, then their site grid values again.</param>
public sealed record ConversionTimes(double ThereMilliseconds, double BackMilliseconds, double[] Values);
