namespace SiteProgress.Core.Coordinates.Projections;

/// <summary>Equidistant conic (EPSG 1119): true to scale along every meridian and two parallels.</summary>
/// <remarks>J. P. Snyder, Map Projections: A Working Manual, section 16.</remarks>
internal sealed class EquidistantConic : Projection
{
    private readonly MeridianDistance meridian;
    private readonly double cone;
    private readonly double apex;
    private readonly double radiusOfOrigin;

    private EquidistantConic(ProjectionFrame frame, double latitudeOfOrigin, double first, double second)
        : base(frame)
    {
        meridian = new MeridianDistance(frame.Ellipsoid);
        double p1 = Parallel(first), p2 = Parallel(second);
        cone = Math.Abs(first - second) < 1e-10 ? Math.Sin(first) : (p1 - p2) / (meridian.Metres(second) - meridian.Metres(first));
        apex = p1 / cone + meridian.Metres(first);
        radiusOfOrigin = apex - meridian.Metres(latitudeOfOrigin);
    }

    public override string MethodName => "Equidistant conic";

    public static IProjection? Create(ProjectionFrame frame, double latitudeOfOriginDegrees, double firstDegrees, double secondDegrees) =>
        Math.Abs(firstDegrees + secondDegrees) < 1e-9 ? null
            : new EquidistantConic(frame, latitudeOfOriginDegrees * RadiansPerDegree, firstDegrees * RadiansPerDegree, secondDegrees * RadiansPerDegree);

    protected override (double East, double North) Project(double latitude, double longitude)
    {
        var radius = apex - meridian.Metres(latitude);
        var (sin, cos) = Math.SinCos(cone * longitude);
        return (radius * sin, radiusOfOrigin - radius * cos);
    }

    protected override (double Latitude, double Longitude) Unproject(double east, double north)
    {
        var sign = Math.Sign(cone);
        double x = sign * east, y = sign * (radiusOfOrigin - north);
        double latitude = meridian.Latitude(apex - sign * Math.Sqrt(x * x + y * y)), longitude = Math.Atan2(x, y) / cone;
        return Math.Abs(latitude) > Math.PI / 2 + 1e-9 || Math.Abs(longitude) > Math.PI + 1e-9 ? (double.NaN, double.NaN) : (latitude, longitude);
    }

    private double Parallel(double latitude) => Frame.Ellipsoid.NormalRadiusMetres(latitude) * Math.Cos(latitude);
}
