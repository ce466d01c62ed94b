namespace SiteProgress.Core.Coordinates.Projections;

/// <summary>Lambert conformal conic with one or two standard parallels (EPSG 9801, 9802), Belgium's (9803) and Michigan's (1051).</summary>
/// <remarks>IOGP Guidance Note 7-2, Lambert Conic Conformal; written in isometric latitude, which keeps the digits the note's t loses.</remarks>
internal sealed class LambertConformalConic : Projection
{
    /// <summary>Belgium's constant turn of 29.2985 seconds, GN7-2 method 9803.</summary>
    public const double BelgianTurnRadians = 29.2985 / 3600 * RadiansPerDegree;

    private readonly IsometricLatitude isometric;
    private readonly double cone;
    private readonly double scale;
    private readonly double radiusOfOrigin;
    private readonly double turn;

    private LambertConformalConic(ProjectionFrame frame, double cone, double scale, double latitudeOfOrigin, double turn)
        : base(frame)
    {
        isometric = new IsometricLatitude(frame.Ellipsoid);
        this.cone = cone;
        this.scale = scale;
        this.turn = turn;
        radiusOfOrigin = Math.Abs(latitudeOfOrigin) > Math.PI / 2 - 1e-12 ? 0 : Radius(IsometricLatitude.Exact(latitudeOfOrigin, frame.Ellipsoid.Eccentricity));
    }

    public override string MethodName => "Lambert conformal conic";

    public static IProjection? OneParallel(ProjectionFrame frame, double latitudeOfOriginDegrees, double scaleFactor)
    {
        var latitude = latitudeOfOriginDegrees * RadiansPerDegree;
        var cone = Math.Sin(latitude);
        if (Math.Abs(cone) < 1e-9 || Math.Abs(cone) > 1 - 1e-12) return null;
        var scale = ScaleAt(frame.Ellipsoid, latitude, cone) * scaleFactor;
        return new LambertConformalConic(frame, cone, scale, latitude, 0);
    }

    public static IProjection? TwoParallels(
        ProjectionFrame frame, double latitudeOfOriginDegrees, double firstDegrees, double secondDegrees, double scaleFactor = 1, double turn = 0)
    {
        double first = firstDegrees * RadiansPerDegree, second = secondDegrees * RadiansPerDegree;
        var e = frame.Ellipsoid.Eccentricity;
        if (Math.Abs(first + second) < 1e-9 || Math.Abs(first) > Math.PI / 2 - 1e-9 || Math.Abs(second) > Math.PI / 2 - 1e-9) return null;
        var cone = Math.Abs(first - second) < 1e-9
            ? Math.Sin(first)
            : Math.Log(ParallelRadius(frame.Ellipsoid, first) / ParallelRadius(frame.Ellipsoid, second))
                / (IsometricLatitude.Exact(second, e) - IsometricLatitude.Exact(first, e));
        return new LambertConformalConic(
            frame, cone, ScaleAt(frame.Ellipsoid, first, cone) * scaleFactor, latitudeOfOriginDegrees * RadiansPerDegree, turn);
    }

    protected override (double East, double North) Project(double latitude, double longitude)
    {
        if (Math.Abs(latitude) > Math.PI / 2 - 1e-12) return latitude * cone < 0 ? (double.NaN, double.NaN) : (0, radiusOfOrigin);
        var radius = Radius(isometric.FromGeodetic(latitude));
        var (sin, cos) = Math.SinCos(cone * longitude - turn);
        return (radius * sin, radiusOfOrigin - radius * cos);
    }

    protected override (double Latitude, double Longitude) Unproject(double east, double north)
    {
        var sign = Math.Sign(cone);
        double x = sign * east, y = sign * (radiusOfOrigin - north);
        var radius = sign * Math.Sqrt(x * x + y * y);
        var longitude = (Math.Atan2(x, y) + turn) / cone;
        if (radius == 0) return (sign * Math.PI / 2, 0);
        if (Math.Abs(longitude) > Math.PI + 1e-9) return (double.NaN, double.NaN);
        return (isometric.ToGeodetic(-Math.Log(radius / scale) / cone), longitude);
    }

    private double Radius(double latitude) => scale * Math.Exp(-cone * latitude);

    private static double ScaleAt(Ellipsoid ellipsoid, double latitude, double cone) =>
        ParallelRadius(ellipsoid, latitude) / cone * Math.Exp(cone * IsometricLatitude.Exact(latitude, ellipsoid.Eccentricity));

    private static double ParallelRadius(Ellipsoid ellipsoid, double latitude) => ellipsoid.NormalRadiusMetres(latitude) * Math.Cos(latitude);
}
