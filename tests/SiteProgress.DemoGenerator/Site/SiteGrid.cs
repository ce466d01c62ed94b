namespace SiteProgress.DemoGenerator.Site;

/// <summary>
/// The true relation of the invented site grid to EPSG:25832 (ETRS89 / UTM 32N). The second axis (Y) bears 33 degrees east of
/// CRS grid north; site metres are ground metres, so the scale is the projection's own point scale factor at the site's middle.
/// </summary>
public static class SiteGrid
{
    public const int Epsg = 25832;
    public const double BearingOfYDegrees = 33.0;
    public const double OriginEasting = 390735.0;
    public const double OriginNorthing = 6161852.0;

    /// <summary>Middle of the site, degrees on ETRS89.</summary>
    public const double MiddleLatitude = 55.6;

    public const double MiddleLongitude = 7.3;

    /// <summary>Grid metres in EPSG:25832 for one metre on the ground.</summary>
    public static double Scale { get; } = PointScaleFactor(MiddleLatitude, MiddleLongitude);

    public static PlanePoint ToProjected(PlanePoint site)
    {
        var (sin, cos) = Math.SinCos(BearingOfYDegrees * Math.PI / 180);
        return new PlanePoint(
            OriginEasting + (Scale * ((site.First * cos) + (site.Second * sin))),
            OriginNorthing + (Scale * ((site.Second * cos) - (site.First * sin))));
    }

    public static PlanePoint FromProjected(PlanePoint projected)
    {
        var (sin, cos) = Math.SinCos(BearingOfYDegrees * Math.PI / 180);
        var east = (projected.First - OriginEasting) / Scale;
        var north = (projected.Second - OriginNorthing) / Scale;
        return new PlanePoint((east * cos) - (north * sin), (east * sin) + (north * cos));
    }

    /// <summary>
    /// Point scale factor of UTM zone 32 (central meridian 9 degrees east, 0.9996) on GRS80, by the series of IOGP Guidance
    /// Note 7-2 / Snyder (1987) eq. 8-11; good to 1e-8 this near the meridian.
    /// </summary>
    public static double PointScaleFactor(double latitudeDegrees, double longitudeDegrees)
    {
        const double flattening = 1 / 298.257222101;
        const double eccentricitySquared = flattening * (2 - flattening);
        const double secondEccentricitySquared = eccentricitySquared / (1 - eccentricitySquared);
        var latitude = latitudeDegrees * Math.PI / 180;
        var cos = Math.Cos(latitude);
        var t = Math.Tan(latitude) * Math.Tan(latitude);
        var c = secondEccentricitySquared * cos * cos;
        var a = (longitudeDegrees - 9) * Math.PI / 180 * cos;
        var second = (1 + c) * a * a / 2;
        var fourth = (5 - (4 * t) + (42 * c) + (13 * c * c) - (28 * secondEccentricitySquared)) * Math.Pow(a, 4) / 24;
        return 0.9996 * (1 + second + fourth);
    }
}
