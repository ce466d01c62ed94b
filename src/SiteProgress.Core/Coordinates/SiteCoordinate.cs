namespace SiteProgress.Core.Coordinates;

/// <summary>A point on the site grid of the drawings, metres along the site's first and second axis.</summary>
/// <param name="XMetres">Distance along the first axis, metres.</param>
/// <param name="YMetres">Distance along the second axis, metres.</param>
public readonly record struct SiteCoordinate(double XMetres, double YMetres)
{
    /// <summary>Distance to another point in the plane of the site grid, metres.</summary>
    public double DistanceToMetres(SiteCoordinate other) => double.Hypot(other.XMetres - XMetres, other.YMetres - YMetres);
}
