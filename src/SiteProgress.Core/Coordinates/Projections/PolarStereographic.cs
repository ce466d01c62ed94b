namespace SiteProgress.Core.Coordinates.Projections;

/// <summary>Polar stereographic, variants A and B (EPSG 9810, 9829), at either pole.</summary>
/// <remarks>IOGP Guidance Note 7-2, Polar Stereographic. The south pole is the north pole seen in a mirror.</remarks>
internal sealed class PolarStereographic : Projection
{
    private readonly double e;
    private readonly double scale;
    private readonly int pole;

    private PolarStereographic(ProjectionFrame frame, int pole, double scale)
        : base(frame)
    {
        e = frame.Ellipsoid.Eccentricity;
        this.pole = pole;
        this.scale = scale;
    }

    public override string MethodName => "Polar stereographic";

    /// <summary>Variant A: scale given at the pole.</summary>
    public static PolarStereographic ScaleAtPole(ProjectionFrame frame, int pole, double scaleFactor)
    {
        double e = frame.Ellipsoid.Eccentricity, e2m = 1 - frame.Ellipsoid.EccentricitySquared;
        return new(frame, pole, 2 * frame.Ellipsoid.SemiMajorMetres * scaleFactor / Math.Sqrt(e2m) * Math.Exp(-e * Math.Atanh(e)));
    }

    /// <summary>Variant B: true to scale along one parallel.</summary>
    public static PolarStereographic TrueAlong(ProjectionFrame frame, double parallelDegrees)
    {
        var parallel = Math.Abs(parallelDegrees) * RadiansPerDegree;
        var radius = frame.Ellipsoid.NormalRadiusMetres(parallel) * Math.Cos(parallel);
        return new(frame, Math.Sign(parallelDegrees), radius * Math.Exp(IsometricLatitude.Exact(parallel, frame.Ellipsoid.Eccentricity)));
    }

    protected override (double East, double North) Project(double latitude, double longitude)
    {
        var seen = pole * latitude;
        if (seen < -Math.PI / 2 + 1e-6) return (double.NaN, double.NaN);
        var tangent = ConformalLatitude.TangentFromGeodetic(Math.Tan(seen), e);
        // exp(-psi), written so that it neither overflows nor cancels towards either pole.
        var secant = Math.Sqrt(1 + tangent * tangent);
        var radius = scale * (tangent > 0 ? 1 / (secant + tangent) : secant - tangent);
        var (sin, cos) = Math.SinCos(longitude);
        return (radius * sin, -pole * radius * cos);
    }

    protected override (double Latitude, double Longitude) Unproject(double east, double north)
    {
        var t = Math.Sqrt(east * east + north * north) / scale;
        if (t == 0) return (pole * Math.PI / 2, 0);
        var tangent = (1 / t - t) / 2;
        return (pole * Math.Atan(ConformalLatitude.TangentToGeodetic(tangent, e)), Math.Atan2(east, -pole * north));
    }
}
