namespace SiteProgress.Core.Coordinates.Projections;

/// <summary>Hotine oblique Mercator, variants A and B (EPSG 9812, 9815): the two differ in where easting and northing begin.</summary>
/// <remarks>
/// IOGP Guidance Note 7-2, Hotine Oblique Mercator. Variant A counts from the natural origin, where the initial line crosses the aposphere's
/// equator; variant B from the projection centre. Taking one for the other moves a point by hundreds of kilometres.
/// </remarks>
internal sealed class HotineObliqueMercator : Projection
{
    private readonly IsometricLatitude isometric;
    private readonly double b;
    private readonly double a;
    private readonly double logH;
    private readonly double originLongitude;
    private readonly double centreU;
    private readonly double sinInitial;
    private readonly double cosInitial;
    private readonly double sinRectified;
    private readonly double cosRectified;

    /// <param name="frame">Ellipsoid, longitude of the centre, false origin.</param>
    /// <param name="latitudeOfCentreDegrees">Latitude of the projection centre.</param>
    /// <param name="azimuthDegrees">Azimuth of the initial line at the centre.</param>
    /// <param name="rectifiedDegrees">Angle from the rectified grid to the oblique one.</param>
    /// <param name="scaleFactor">Scale along the initial line.</param>
    /// <param name="fromCentre">True for variant B.</param>
    public HotineObliqueMercator(
        ProjectionFrame frame, double latitudeOfCentreDegrees, double azimuthDegrees, double rectifiedDegrees, double scaleFactor, bool fromCentre)
        : base(frame)
    {
        double e2 = frame.Ellipsoid.EccentricitySquared, centre = latitudeOfCentreDegrees * RadiansPerDegree, azimuth = azimuthDegrees * RadiansPerDegree;
        double sine = Math.Sin(centre), cosine = Math.Cos(centre), w = 1 - e2 * sine * sine;
        isometric = new IsometricLatitude(frame.Ellipsoid);
        b = Math.Sqrt(1 + e2 * Math.Pow(cosine, 4) / (1 - e2));
        a = frame.Ellipsoid.SemiMajorMetres * b * scaleFactor * Math.Sqrt(1 - e2) / w;
        var d = Math.Max(1, b * Math.Sqrt(1 - e2) / (cosine * Math.Sqrt(w)));
        var rise = Math.Sqrt(d * d - 1) * (sine < 0 ? -1 : 1);
        // H = F t0^B, kept as a logarithm: ln F = asinh(rise) with the sign of the latitude, ln t0 = -psi0.
        var logF = Math.Asinh(rise);
        logH = logF - b * IsometricLatitude.Exact(centre, frame.Ellipsoid.Eccentricity);
        sinInitial = Math.Sin(azimuth) / d;
        cosInitial = Math.Sqrt(1 - sinInitial * sinInitial);
        originLongitude = -Math.Asin(Math.Clamp(Math.Sinh(logF) * sinInitial / cosInitial, -1, 1)) / b;
        centreU = !fromCentre ? 0
            : Math.Abs(Math.Cos(azimuth)) < 1e-12 ? -a * originLongitude
            : a / b * Math.Atan2(Math.Abs(rise), Math.Cos(azimuth)) * (sine < 0 ? -1 : 1);
        (sinRectified, cosRectified) = Math.SinCos(rectifiedDegrees * RadiansPerDegree);
    }

    public override string MethodName => "Hotine oblique Mercator";

    protected override (double East, double North) Project(double latitude, double longitude)
    {
        if (Math.Abs(latitude) > Math.PI / 2 - 1e-10) return (double.NaN, double.NaN);
        var logQ = logH + b * isometric.FromGeodetic(latitude);
        double s = Math.Sinh(logQ), t = Math.Cosh(logQ);
        var (v, c) = Math.SinCos(b * WrapRadians(longitude - originLongitude));
        var across = (s * sinInitial - v * cosInitial) / t;
        if (Math.Abs(across) > 1 - 1e-12) return (double.NaN, double.NaN);
        double vv = -a / b * Math.Atanh(across), u = a / b * Math.Atan2(s * cosInitial + v * sinInitial, c) - centreU;
        return (vv * cosRectified + u * sinRectified, u * cosRectified - vv * sinRectified);
    }

    protected override (double Latitude, double Longitude) Unproject(double east, double north)
    {
        double v = east * cosRectified - north * sinRectified, u = north * cosRectified + east * sinRectified + centreU;
        double logQ = -b * v / a, s = Math.Sinh(logQ), t = Math.Cosh(logQ);
        var (sin, cos) = Math.SinCos(b * u / a);
        var upward = (sin * cosInitial + s * sinInitial) / t;
        if (Math.Abs(upward) > 1 - 1e-15) return (double.NaN, double.NaN);
        return (isometric.ToGeodetic((Math.Atanh(upward) - logH) / b),
            originLongitude - Math.Atan2(s * cosInitial - sin * sinInitial, cos) / b);
    }
}
