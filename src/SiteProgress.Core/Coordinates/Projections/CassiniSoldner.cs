namespace SiteProgress.Core.Coordinates.Projections;

/// <summary>Cassini-Soldner (EPSG 9806) and its hyperbolic variant (9833).</summary>
/// <remarks>
/// IOGP Guidance Note 7-2, Cassini-Soldner: a truncated series by definition. The inverse given there is only a start; it is carried on
/// until forward and inverse agree, because a surveyor brings points back.
/// </remarks>
internal sealed class CassiniSoldner : Projection
{
    private readonly MeridianDistance meridian;
    private readonly double origin;
    private readonly bool isHyperbolic;

    public CassiniSoldner(ProjectionFrame frame, double latitudeOfOriginDegrees, bool isHyperbolic)
        : base(frame)
    {
        meridian = new MeridianDistance(frame.Ellipsoid);
        origin = meridian.Metres(latitudeOfOriginDegrees * RadiansPerDegree);
        this.isHyperbolic = isHyperbolic;
    }

    public override string MethodName => isHyperbolic ? "Hyperbolic Cassini-Soldner" : "Cassini-Soldner";

    protected override (double East, double North) Project(double latitude, double longitude)
    {
        if (Math.Abs(longitude) > Math.PI / 2) return (double.NaN, double.NaN);
        double tangent = Math.Tan(latitude), t = tangent * tangent, cosine = Math.Cos(latitude), e2 = Frame.Ellipsoid.EccentricitySquared;
        double a = longitude * cosine, a2 = a * a, c = e2 * cosine * cosine / (1 - e2), nu = Frame.Ellipsoid.NormalRadiusMetres(latitude);
        var east = nu * a * (1 - a2 * t * (1 / 6.0 + (8 - t + 8 * c) * a2 / 120));
        var north = meridian.Metres(latitude) - origin + nu * tangent * a2 * (0.5 + (5 - t + 6 * c) * a2 / 24);
        if (isHyperbolic) north -= north * north * north / (6 * Frame.Ellipsoid.MeridianRadiusMetres(latitude) * nu);
        return (east, north);
    }

    protected override (double Latitude, double Longitude) Unproject(double east, double north)
    {
        var foot = meridian.Latitude(origin + north);
        return PlaneInverse.Solve(Project, east, north, foot, east / (Frame.Ellipsoid.NormalRadiusMetres(foot) * Math.Cos(foot)));
    }
}
