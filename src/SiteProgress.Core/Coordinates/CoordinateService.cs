namespace SiteProgress.Core.Coordinates;

/// <summary>The only crossing between site grid, projected CRS and geographic position.</summary>
/// <remarks>
/// Geographic always means the geographic system of the projected CRS's own datum: no datum shift is hidden here.
/// Every conversion works on spans of equal length and allocates nothing per point; a point that cannot be projected becomes NaN.
/// A point's digits do not depend on the batch it is in: one by one and a million at once give the same.
/// </remarks>
public sealed class CoordinateService
{
    // A block of 16-byte points that stays in the processor's nearest cache and on the stack.
    private const int BlockLength = 256;

    private readonly PlaneMap toProjected;
    private readonly PlaneMap toSite;

    /// <summary>Joins one revision of a site's adjustment with the projected CRS it was made in.</summary>
    public CoordinateService(Adjustment adjustment, ProjectedCrs crs)
    {
        ArgumentNullException.ThrowIfNull(adjustment);
        ArgumentNullException.ThrowIfNull(crs);
        Adjustment = adjustment;
        Crs = crs;
        toProjected = PlaneMap.Forward(adjustment);
        toSite = PlaneMap.Inverse(adjustment);
    }

    /// <summary>Where the site grid lies.</summary>
    public Adjustment Adjustment { get; }

    /// <summary>The projected CRS of the site.</summary>
    public ProjectedCrs Crs { get; }

    /// <summary>Site grid to projected CRS.</summary>
    public void SiteToProjected(ReadOnlySpan<SiteCoordinate> site, Span<ProjectedCoordinate> projected)
    {
        RequireSameLength(site.Length, projected.Length);
        toProjected.Apply(site, projected);
    }

    /// <summary>Projected CRS to site grid.</summary>
    public void ProjectedToSite(ReadOnlySpan<ProjectedCoordinate> projected, Span<SiteCoordinate> site)
    {
        RequireSameLength(projected.Length, site.Length);
        toSite.Apply(projected, site);
    }

    /// <summary>Projected CRS to latitude and longitude on its own datum.</summary>
    public void ProjectedToGeographic(ReadOnlySpan<ProjectedCoordinate> projected, Span<GeographicCoordinate> geographic) =>
        Crs.Projection.Inverse(projected, geographic);

    /// <summary>Latitude and longitude on the CRS's own datum to projected CRS.</summary>
    public void GeographicToProjected(ReadOnlySpan<GeographicCoordinate> geographic, Span<ProjectedCoordinate> projected) =>
        Crs.Projection.Forward(geographic, projected);

    /// <summary>Site grid to latitude and longitude on the CRS's own datum.</summary>
    public void SiteToGeographic(ReadOnlySpan<SiteCoordinate> site, Span<GeographicCoordinate> geographic)
    {
        RequireSameLength(site.Length, geographic.Length);
        Span<ProjectedCoordinate> block = stackalloc ProjectedCoordinate[BlockLength];
        for (var start = 0; start < site.Length; start += BlockLength)
        {
            var length = Math.Min(BlockLength, site.Length - start);
            SiteToProjected(site.Slice(start, length), block[..length]);
            ProjectedToGeographic(block[..length], geographic.Slice(start, length));
        }
    }

    /// <summary>Latitude and longitude on the CRS's own datum to site grid.</summary>
    public void GeographicToSite(ReadOnlySpan<GeographicCoordinate> geographic, Span<SiteCoordinate> site)
    {
        RequireSameLength(geographic.Length, site.Length);
        Span<ProjectedCoordinate> block = stackalloc ProjectedCoordinate[BlockLength];
        for (var start = 0; start < site.Length; start += BlockLength)
        {
            var length = Math.Min(BlockLength, site.Length - start);
            GeographicToProjected(geographic.Slice(start, length), block[..length]);
            ProjectedToSite(block[..length], site.Slice(start, length));
        }
    }

    /// <summary>Site grid to projected CRS, one point.</summary>
    public ProjectedCoordinate ToProjected(SiteCoordinate site)
    {
        var (east, north) = toProjected.Apply(site.XMetres, site.YMetres);
        return new(east, north);
    }

    /// <summary>Latitude and longitude to projected CRS, one point; NaN where it cannot be projected.</summary>
    public ProjectedCoordinate ToProjected(GeographicCoordinate geographic) => Crs.Project(geographic);

    /// <summary>Projected CRS to site grid, one point.</summary>
    public SiteCoordinate ToSite(ProjectedCoordinate projected)
    {
        var (x, y) = toSite.Apply(projected.EastingMetres, projected.NorthingMetres);
        return new(x, y);
    }

    /// <summary>Latitude and longitude to site grid, one point; NaN where it cannot be projected.</summary>
    public SiteCoordinate ToSite(GeographicCoordinate geographic) => ToSite(ToProjected(geographic));

    /// <summary>Projected CRS to latitude and longitude, one point; NaN where it cannot be done.</summary>
    public GeographicCoordinate ToGeographic(ProjectedCoordinate projected) => Crs.Unproject(projected);

    /// <summary>Site grid to latitude and longitude, one point; NaN where it cannot be done.</summary>
    public GeographicCoordinate ToGeographic(SiteCoordinate site) => ToGeographic(ToProjected(site));

    /// <summary>How the projection turns and stretches the ground at a point.</summary>
    public GridDistortion DistortionAt(GeographicCoordinate point) => GridDistortion.At(Crs, point);

    private static void RequireSameLength(int given, int room)
    {
        if (given != room) throw new ArgumentException($"{given} points given and room for {room}; the two spans must have the same length.");
    }
}
