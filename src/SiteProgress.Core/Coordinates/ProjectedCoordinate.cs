namespace SiteProgress.Core.Coordinates;

/// <summary>A point in the site's projected CRS, metres (ISO 19111).</summary>
/// <param name="EastingMetres">Easting, metres.</param>
/// <param name="NorthingMetres">Northing, metres.</param>
public readonly record struct ProjectedCoordinate(double EastingMetres, double NorthingMetres);
