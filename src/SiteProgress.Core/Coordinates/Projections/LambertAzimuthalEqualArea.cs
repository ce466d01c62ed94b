namespace SiteProgress.Core.Coordinates.Projections;

/// <summary>Lambert azimuthal equal area, oblique, equatorial and polar (EPSG 9820; on a sphere 1027).</summary>
/// <remarks>IOGP Guidance Note 7-2, Lambert Azimuthal Equal Area, by way of the authalic sphere.</remarks>
internal sealed class LambertAzimuthalEqualArea : Projection
{
    private readonly AuthalicLatitude authalic;
    private readonly double stretch;
    private readonly double sinOrigin;
    private readonly double cosOrigin;

    public LambertAzimuthalEqualArea(ProjectionFrame frame, double latitudeOfOriginDegrees)
        : base(frame)
    {
        var latitude = latitudeOfOriginDegrees * RadiansPerDegree;
        authalic = new AuthalicLatitude(frame.Ellipsoid);
        var origin = authalic.FromGeodetic(latitude);
        var isPolar = Math.Abs(latitude) > Math.PI / 2 - 1e-10;
        sinOrigin = isPolar ? Math.Sign(latitude) : Math.Sin(origin);
        cosOrigin = isPolar ? 0 : Math.Cos(origin);
        // Snyder's D: makes the scale true in both directions at the origin.
        stretch = isPolar ? 1 : frame.Ellipsoid.NormalRadiusMetres(latitude) * Math.Cos(latitude) / (authalic.RadiusMetres * cosOrigin);
    }

    public override string MethodName => "Lambert azimuthal equal area";

    protected override (double East, double North) Project(double latitude, double longitude)
    {
        var (sin, cos) = Math.SinCos(authalic.FromGeodetic(latitude));
        var (sinLongitude, cosLongitude) = Math.SinCos(longitude);
        var up = sinOrigin * sin + cosOrigin * cos * cosLongitude;
        if (up < -1 + 1e-9) return (double.NaN, double.NaN);
        var factor = authalic.RadiusMetres * Math.Sqrt(2 / (1 + up));
        return (factor * stretch * cos * sinLongitude, factor / stretch * (cosOrigin * sin - sinOrigin * cos * cosLongitude));
    }

    protected override (double Latitude, double Longitude) Unproject(double east, double north)
    {
        double x = east / stretch / authalic.RadiusMetres, y = north * stretch / authalic.RadiusMetres, r2 = x * x + y * y;
        if (r2 > 4) return (double.NaN, double.NaN);
        double along = Math.Sqrt(1 - r2 / 4), up = 1 - r2 / 2;
        double z = up * sinOrigin + y * along * cosOrigin, h = up * cosOrigin - y * along * sinOrigin, across = x * along;
        return (authalic.ToGeodetic(Math.Atan2(z, Math.Sqrt(h * h + across * across))), Math.Atan2(across, h));
    }
}
