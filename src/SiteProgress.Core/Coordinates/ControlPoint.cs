namespace SiteProgress.Core.Coordinates;

/// <summary>A mark known in both frames, from which the site grid is tied to the projected CRS.</summary>
/// <param name="Name">The mark's name as painted, stamped or drawn.</param>
/// <param name="Site">Where the drawings put it: site grid, metres.</param>
/// <param name="Projected">Where it was surveyed: projected CRS, metres.</param>
/// <param name="StandardDeviationMetres">
/// Standard deviation of one coordinate of the mark, metres (one sigma, both frames together). The adjustment weighs a mark by 1/sigma squared.
/// </param>
public sealed record ControlPoint(string Name, SiteCoordinate Site, ProjectedCoordinate Projected, double StandardDeviationMetres);
