namespace SiteProgress.Core.Coordinates.Projections;

/// <summary>American polyconic (EPSG 9818).</summary>
/// <remarks>J. P. Snyder, Map Projections: A Working Manual, section 18; IOGP Guidance Note 7-2, American Polyconic.</remarks>
internal sealed class AmericanPolyconic : Projection
{
    private readonly MeridianDistance meridian;
    private readonly double origin;

    public AmericanPolyconic(ProjectionFrame frame, double latitudeOfOriginDegrees)
        : base(frame)
    {
        meridian = new MeridianDistance(frame.Ellipsoid);
        origin = meridian.Metres(latitudeOfOriginDegrees * RadiansPerDegree);
    }

    public override string MethodName => "American polyconic";

    protected override (double East, double North) Project(double latitude, double longitude)
    {
        if (Math.Abs(longitude) > Math.PI / 2) return (double.NaN, double.NaN);
        var sine = Math.Sin(latitude);
        var parallel = Frame.Ellipsoid.NormalRadiusMetres(latitude) * Math.Cos(latitude);
        var turn = longitude * sine;
        // sin(turn) / sin(phi) and (1 - cos(turn)) / sin(phi), written so that the equator is no special case.
        var half = Math.Sin(turn / 2);
        var across = Math.Abs(sine) < 1e-9 ? longitude : Math.Sin(turn) / sine;
        var along = Math.Abs(sine) < 1e-9 ? longitude * longitude * sine / 2 : 2 * half * half / sine;
        return (parallel * across, meridian.Metres(latitude) - origin + parallel * along);
    }

    protected override (double Latitude, double Longitude) Unproject(double east, double north)
    {
        var foot = meridian.Latitude(origin + north);
        return PlaneInverse.Solve(Project, east, north, foot, east / (Frame.Ellipsoid.NormalRadiusMetres(foot) * Math.Cos(foot)));
    }
}
