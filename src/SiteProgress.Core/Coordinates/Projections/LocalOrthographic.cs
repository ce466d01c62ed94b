namespace SiteProgress.Core.Coordinates.Projections;

/// <summary>Orthographic (EPSG 9840) and local orthographic (1130), which adds a turn and a scale: a site grid given by its origin alone.</summary>
/// <remarks>IOGP Guidance Note 7-2 (August 2024), Orthographic and Local Orthographic, ellipsoidal.</remarks>
internal sealed class LocalOrthographic : Projection
{
    private readonly double sinOrigin;
    private readonly double cosOrigin;
    private readonly double normalOfOrigin;
    private readonly double scale;
    private readonly double sinTurn;
    private readonly double cosTurn;
    private readonly double origin;

    public LocalOrthographic(ProjectionFrame frame, double latitudeOfOriginDegrees, double azimuthDegrees, double scaleFactor)
        : base(frame)
    {
        origin = latitudeOfOriginDegrees * RadiansPerDegree;
        (sinOrigin, cosOrigin) = Math.SinCos(origin);
        (sinTurn, cosTurn) = Math.SinCos(azimuthDegrees * RadiansPerDegree);
        normalOfOrigin = frame.Ellipsoid.NormalRadiusMetres(origin);
        scale = scaleFactor;
    }

    public override string MethodName => "Local orthographic";

    protected override (double East, double North) Project(double latitude, double longitude)
    {
        var e2 = Frame.Ellipsoid.EccentricitySquared;
        var (sin, cos) = Math.SinCos(latitude);
        var (sinLongitude, cosLongitude) = Math.SinCos(longitude);
        // What lies beyond the horizon of the origin would fall on top of what lies before it.
        if (sinOrigin * sin + cosOrigin * cos * cosLongitude < 0.05) return (double.NaN, double.NaN);
        var normal = Frame.Ellipsoid.NormalRadiusMetres(latitude);
        var x = normal * cos * sinLongitude;
        var y = normal * (sin * cosOrigin - cos * sinOrigin * cosLongitude) + e2 * (normalOfOrigin * sinOrigin - normal * sin) * cosOrigin;
        return (scale * (x * cosTurn - y * sinTurn), scale * (x * sinTurn + y * cosTurn));
    }

    protected override (double Latitude, double Longitude) Unproject(double east, double north)
    {
        double x = (east * cosTurn + north * sinTurn) / scale, y = (north * cosTurn - east * sinTurn) / scale;
        var latitude = origin + y / normalOfOrigin;
        var found = PlaneInverse.Solve(Project, east, north, latitude, Math.Atan2(x, normalOfOrigin * cosOrigin - y * sinOrigin));
        // The search may walk over a pole; beyond it the same place has the mirrored latitude and the opposite longitude.
        return Math.Abs(found.Latitude) <= Math.PI / 2
            ? found
            : (Math.CopySign(Math.PI, found.Latitude) - found.Latitude, found.Longitude + Math.PI);
    }
}
