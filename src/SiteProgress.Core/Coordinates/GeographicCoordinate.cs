namespace SiteProgress.Core.Coordinates;

/// <summary>A geographic position on the datum of the site's projected CRS, decimal degrees (ISO 19111).</summary>
/// <param name="LatitudeDegrees">Geodetic latitude, degrees, north positive.</param>
/// <param name="LongitudeDegrees">Longitude, degrees, east positive.</param>
public readonly record struct GeographicCoordinate(double LatitudeDegrees, double LongitudeDegrees);
