namespace SiteProgress.Core.Coordinates.Projections;

/// <summary>Lambert cylindrical equal area (EPSG 9835; on a sphere 9834).</summary>
/// <remarks>J. P. Snyder, Map Projections: A Working Manual, section 10.</remarks>
internal sealed class CylindricalEqualArea : Projection
{
    private readonly AuthalicLatitude authalic;
    private readonly double scale;

    public CylindricalEqualArea(ProjectionFrame frame, double parallelDegrees)
        : base(frame)
    {
        authalic = new AuthalicLatitude(frame.Ellipsoid);
        var parallel = parallelDegrees * RadiansPerDegree;
        scale = frame.Ellipsoid.NormalRadiusMetres(parallel) * Math.Cos(parallel);
    }

    public override string MethodName => "Cylindrical equal area";

    private double Height => authalic.RadiusMetres * authalic.RadiusMetres / scale;

    protected override (double East, double North) Project(double latitude, double longitude) =>
        (scale * longitude, Height * Math.Sin(authalic.FromGeodetic(latitude)));

    protected override (double Latitude, double Longitude) Unproject(double east, double north)
    {
        var sine = north / Height;
        return Math.Abs(sine) > 1 + 1e-12 ? (double.NaN, double.NaN) : (authalic.ToGeodetic(Math.Asin(Math.Clamp(sine, -1, 1))), east / scale);
    }
}
