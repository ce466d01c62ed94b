namespace SiteProgress.Core.Coordinates.Projections;

/// <summary>
/// Oblique Mercator whose initial line runs due east (azimuth 90 degrees), by way of the conformal sphere: Switzerland's grid and Hungary's EOV.
/// </summary>
/// <remarks>swisstopo, Formulas and constants for the calculation of the Swiss conformal cylindrical projection (2016), section 3.</remarks>
internal sealed class SwissObliqueMercator : Projection
{
    private readonly IsometricLatitude isometric;
    private readonly double ratio;
    private readonly double shift;
    private readonly double radius;
    private readonly double sinOrigin;
    private readonly double cosOrigin;

    public SwissObliqueMercator(ProjectionFrame frame, double latitudeOfCentreDegrees, double scaleFactor)
        : base(frame)
    {
        var latitude = latitudeOfCentreDegrees * RadiansPerDegree;
        double e2 = frame.Ellipsoid.EccentricitySquared, sine = Math.Sin(latitude);
        isometric = new IsometricLatitude(frame.Ellipsoid);
        ratio = Math.Sqrt(1 + e2 / (1 - e2) * Math.Pow(Math.Cos(latitude), 4));
        sinOrigin = sine / ratio;
        cosOrigin = Math.Sqrt(1 - sinOrigin * sinOrigin);
        shift = Math.Atanh(sinOrigin) - ratio * IsometricLatitude.Exact(latitude, frame.Ellipsoid.Eccentricity);
        radius = scaleFactor * frame.Ellipsoid.SemiMajorMetres * Math.Sqrt(1 - e2) / (1 - e2 * sine * sine);
    }

    public override string MethodName => "Oblique Mercator with an east-west initial line";

    protected override (double East, double North) Project(double latitude, double longitude)
    {
        var psi = ratio * isometric.FromGeodetic(latitude) + shift;
        double sine = Math.Tanh(psi), cosine = 1 / Math.Cosh(psi);
        var (sin, cos) = Math.SinCos(ratio * longitude);
        var upward = cosOrigin * sine - sinOrigin * cosine * cos;
        return (radius * Math.Atan2(cosine * sin, sinOrigin * sine + cosOrigin * cosine * cos), radius * Math.Atanh(upward));
    }

    protected override (double Latitude, double Longitude) Unproject(double east, double north)
    {
        double sine = Math.Tanh(north / radius), cosine = 1 / Math.Cosh(north / radius);
        var (sin, cos) = Math.SinCos(east / radius);
        double z = cosOrigin * sine + sinOrigin * cosine * cos, x = cosOrigin * cosine * cos - sinOrigin * sine, y = cosine * sin;
        var psi = Math.Asinh(z / Math.Sqrt(x * x + y * y));
        return (isometric.ToGeodetic((psi - shift) / ratio), Math.Atan2(y, x) / ratio);
    }
}
