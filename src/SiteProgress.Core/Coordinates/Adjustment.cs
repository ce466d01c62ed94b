namespace SiteProgress.Core.Coordinates;

/// <summary>
/// Where the site grid lies in the projected CRS: one revision of the fit, a plain value that can be stored and compared.
/// </summary>
/// <remarks>
/// E = E0 + EastPerX (x - x0) + EastPerY (y - y0); N = N0 + NorthPerX (x - x0) + NorthPerY (y - y0), metres throughout.
/// The origin is the weighted centroid of the control points, so that no digit is lost where eastings and northings have seven of them.
/// For a similarity on right-handed axes EastPerX = NorthPerY = a and NorthPerX = -EastPerY = b in the notation of
/// Ghilani, Adjustment Computations, chapter 18; on left-handed axes (X north, Y east) the two columns change places.
/// </remarks>
/// <param name="Kind">Similarity, rigid or affine.</param>
/// <param name="Revision">Which revision of the site's fit this is, counted from 1. Records keep the revision they were placed with.</param>
/// <param name="EastPerX">Easting gained along one metre of the site's first axis.</param>
/// <param name="EastPerY">Easting gained along one metre of the site's second axis.</param>
/// <param name="NorthPerX">Northing gained along one metre of the site's first axis.</param>
/// <param name="NorthPerY">Northing gained along one metre of the site's second axis.</param>
/// <param name="SiteOrigin">(x0, y0), site grid, metres.</param>
/// <param name="ProjectedOrigin">(E0, N0), projected CRS, metres.</param>
public sealed record Adjustment(
    AdjustmentKind Kind, int Revision,
    double EastPerX, double EastPerY, double NorthPerX, double NorthPerY,
    SiteCoordinate SiteOrigin, ProjectedCoordinate ProjectedOrigin)
{
    /// <summary>True where the second axis lies clockwise of the first, as on a grid with X north and Y east.</summary>
    public bool IsLeftHanded => Determinant < 0;

    /// <summary>Metres of projected grid for one metre of site grid (for an affine fit: the square root of the area's growth).</summary>
    public double Scale => Math.Sqrt(Math.Abs(Determinant));

    /// <summary>
    /// Turn of the site grid, degrees, counter-clockwise positive, -180 to 180: from the easting axis to the site's X axis;
    /// on left-handed axes from the easting axis to the site's Y axis.
    /// </summary>
    public double RotationDegrees => IsLeftHanded
        ? Math.Atan2(NorthPerY, EastPerY) * 180 / Math.PI
        : Math.Atan2(NorthPerX, EastPerX) * 180 / Math.PI;

    /// <summary>Bearing of the site's X axis from the north of the projected CRS, degrees clockwise, 0 to 360.</summary>
    public double BearingOfXAxisDegrees => Bearing(EastPerX, NorthPerX);

    /// <summary>Bearing of the site's Y axis from the north of the projected CRS, degrees clockwise, 0 to 360.</summary>
    public double BearingOfYAxisDegrees => Bearing(EastPerY, NorthPerY);

    /// <summary>
    /// Bearing of the site's own north, degrees clockwise from the north of the projected CRS: the Y axis on right-handed axes,
    /// the X axis on left-handed ones. A bearing on the projected CRS is a bearing on the site plus this.
    /// </summary>
    public double BearingOfSiteNorthDegrees => IsLeftHanded ? BearingOfXAxisDegrees : BearingOfYAxisDegrees;

    private double Determinant => EastPerX * NorthPerY - EastPerY * NorthPerX;

    /// <summary>Site grid to projected CRS, metres.</summary>
    public ProjectedCoordinate Forward(SiteCoordinate site)
    {
        var (east, north) = PlaneMap.Forward(this).Apply(site.XMetres, site.YMetres);
        return new(east, north);
    }

    /// <summary>Projected CRS to site grid, metres.</summary>
    public SiteCoordinate Inverse(ProjectedCoordinate projected)
    {
        var (x, y) = PlaneMap.Inverse(this).Apply(projected.EastingMetres, projected.NorthingMetres);
        return new(x, y);
    }

    private static double Bearing(double east, double north)
    {
        var degrees = Math.Atan2(east, north) * 180 / Math.PI;
        return degrees < 0 ? degrees + 360 : degrees;
    }
}
