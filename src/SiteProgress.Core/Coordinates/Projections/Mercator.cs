namespace SiteProgress.Core.Coordinates.Projections;

/// <summary>Mercator, variants A and B (EPSG 9804, 9805), and the web's spherical one (1024).</summary>
/// <remarks>IOGP Guidance Note 7-2, Mercator. The web's variant puts ellipsoidal latitudes on a sphere and is not conformal; it is exact all the same.</remarks>
internal sealed class Mercator(ProjectionFrame frame, double scaleFactor, bool onSphere = false) : Projection(frame)
{
    private readonly double radius = frame.Ellipsoid.SemiMajorMetres * scaleFactor;
    private readonly IsometricLatitude isometric = new(onSphere ? frame.Ellipsoid with { Flattening = 0 } : frame.Ellipsoid);

    public override string MethodName => onSphere ? "Popular visualisation pseudo-Mercator" : "Mercator";

    /// <summary>Variant B: true to scale along one parallel.</summary>
    public static Mercator TrueAlong(ProjectionFrame frame, double parallelDegrees)
    {
        var parallel = parallelDegrees * RadiansPerDegree;
        return new(frame, frame.Ellipsoid.NormalRadiusMetres(parallel) * Math.Cos(parallel) / frame.Ellipsoid.SemiMajorMetres);
    }

    protected override (double East, double North) Project(double latitude, double longitude) =>
        Math.Abs(latitude) > Math.PI / 2 - 1e-10
            ? (double.NaN, double.NaN)
            : (radius * longitude, radius * isometric.FromGeodetic(latitude));

    protected override (double Latitude, double Longitude) Unproject(double east, double north) =>
        (isometric.ToGeodetic(north / radius), east / radius);
}
