namespace SiteProgress.Core.Coordinates.Projections;

/// <summary>Oblique stereographic by way of Gauss's conformal sphere (EPSG 9809), as the Netherlands and Poland use it.</summary>
/// <remarks>IOGP Guidance Note 7-2, Oblique Stereographic; the note's w is written as exp of twice the conformal sphere's isometric latitude.</remarks>
internal sealed class ObliqueStereographic : Projection
{
    private readonly IsometricLatitude isometric;
    private readonly double n;
    private readonly double shift;
    private readonly double diameter;
    private readonly double sinOrigin;
    private readonly double cosOrigin;

    public ObliqueStereographic(ProjectionFrame frame, double latitudeOfOriginDegrees, double scaleFactor)
        : base(frame)
    {
        var latitude = latitudeOfOriginDegrees * RadiansPerDegree;
        double e2 = frame.Ellipsoid.EccentricitySquared, c2 = Math.Pow(Math.Cos(latitude), 2), sine = Math.Sin(latitude);
        isometric = new IsometricLatitude(frame.Ellipsoid);
        n = Math.Sqrt(1 + e2 * c2 * c2 / (1 - e2));
        diameter = 2 * scaleFactor * Math.Sqrt(frame.Ellipsoid.MeridianRadiusMetres(latitude) * frame.Ellipsoid.NormalRadiusMetres(latitude));
        // The sphere's latitude of the origin is asin(sin phi0 / n), which is what the note's constant c brings about.
        sinOrigin = sine / n;
        cosOrigin = Math.Sqrt(1 - sinOrigin * sinOrigin);
        shift = Math.Atanh(sinOrigin) - n * IsometricLatitude.Exact(latitude, frame.Ellipsoid.Eccentricity);
    }

    public override string MethodName => "Oblique stereographic";

    protected override (double East, double North) Project(double latitude, double longitude)
    {
        var psi = n * isometric.FromGeodetic(latitude) + shift;
        double sine = Math.Tanh(psi), cosine = 1 / Math.Cosh(psi);
        var (sinLongitude, cosLongitude) = Math.SinCos(n * longitude);
        var divisor = 1 + sine * sinOrigin + cosine * cosOrigin * cosLongitude;
        if (divisor < 1e-9) return (double.NaN, double.NaN);
        return (diameter * cosine * sinLongitude / divisor, diameter * (sine * cosOrigin - cosine * sinOrigin * cosLongitude) / divisor);
    }

    protected override (double Latitude, double Longitude) Unproject(double east, double north)
    {
        double x = east / diameter, y = north / diameter, r2 = x * x + y * y;
        // Stereographic back to the unit sphere, as a direction in space.
        double up = (1 - r2) / (1 + r2), across = 2 * x / (1 + r2), along = 2 * y / (1 + r2);
        double z = up * sinOrigin + along * cosOrigin, horizontal = up * cosOrigin - along * sinOrigin;
        var psi = Math.Asinh(z / Math.Sqrt(across * across + horizontal * horizontal));
        return (isometric.ToGeodetic((psi - shift) / n), Math.Atan2(across, horizontal) / n);
    }
}
