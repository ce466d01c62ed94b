namespace SiteProgress.Core.Coordinates.Projections;

/// <summary>Albers equal area conic (EPSG 9822).</summary>
/// <remarks>J. P. Snyder, Map Projections: A Working Manual, section 14; IOGP Guidance Note 7-2, Albers Equal Area.</remarks>
internal sealed class AlbersEqualArea : Projection
{
    private readonly AuthalicLatitude authalic;
    private readonly double cone;
    private readonly double c;
    private readonly double radiusOfOrigin;

    private AlbersEqualArea(ProjectionFrame frame, double latitudeOfOrigin, double first, double second)
        : base(frame)
    {
        authalic = new AuthalicLatitude(frame.Ellipsoid);
        double m1 = ParallelSquared(first), m2 = ParallelSquared(second), q1 = Q(first), q2 = Q(second);
        cone = Math.Abs(first - second) < 1e-10 ? Math.Sin(first) : (m1 - m2) / (q2 - q1);
        c = m1 + cone * q1;
        radiusOfOrigin = Radius(latitudeOfOrigin);
    }

    public override string MethodName => "Albers equal area";

    public static IProjection? Create(ProjectionFrame frame, double latitudeOfOriginDegrees, double firstDegrees, double secondDegrees) =>
        Math.Abs(firstDegrees + secondDegrees) < 1e-9 ? null
            : new AlbersEqualArea(frame, latitudeOfOriginDegrees * RadiansPerDegree, firstDegrees * RadiansPerDegree, secondDegrees * RadiansPerDegree);

    protected override (double East, double North) Project(double latitude, double longitude)
    {
        var radius = Radius(latitude);
        var (sin, cos) = Math.SinCos(cone * longitude);
        return (radius * sin, radiusOfOrigin - radius * cos);
    }

    protected override (double Latitude, double Longitude) Unproject(double east, double north)
    {
        var sign = Math.Sign(cone);
        double x = sign * east, y = sign * (radiusOfOrigin - north);
        var r = cone / Frame.Ellipsoid.SemiMajorMetres;
        var sine = (c - r * r * (x * x + y * y)) / cone / authalic.QAtPole;
        var longitude = Math.Atan2(x, y) / cone;
        if (Math.Abs(sine) > 1 + 1e-12 || Math.Abs(longitude) > Math.PI + 1e-9) return (double.NaN, double.NaN);
        return (authalic.ToGeodetic(Math.Asin(Math.Clamp(sine, -1, 1))), longitude);
    }

    private double Q(double latitude) => authalic.QAtPole * Math.Sin(authalic.FromGeodetic(latitude));

    private double Radius(double latitude) => Frame.Ellipsoid.SemiMajorMetres * Math.Sqrt(Math.Max(0, c - cone * Q(latitude))) / cone;

    private double ParallelSquared(double latitude) =>
        Math.Pow(Frame.Ellipsoid.NormalRadiusMetres(latitude) * Math.Cos(latitude) / Frame.Ellipsoid.SemiMajorMetres, 2);
}
