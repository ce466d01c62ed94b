namespace SiteProgress.Core.Coordinates.Projections;

/// <summary>Transverse Mercator (EPSG methods 9807 and 9808) to full double precision.</summary>
/// <remarks>
/// Krüger's series to order six (see <see cref="KruegerSeries"/>), the same formulas as IOGP Guidance Note 7-2, section 3.5.3.1 (JHS),
/// carried two orders further. Refused (NaN) beyond about 59 degrees of longitude from the central meridian at the equator, where the
/// series would leave more than 0.01 mm.
/// </remarks>
internal sealed class TransverseMercator : Projection
{
    /// <summary>Largest easting on the unit sphere for which order six holds 0.01 mm; see remarks.</summary>
    private const double LargestEta = 1.3;

    private readonly double eccentricity;
    private readonly double radius;
    private readonly double northOfOrigin;
    private readonly KruegerSeries series;

    public TransverseMercator(ProjectionFrame frame, double latitudeOfOriginDegrees, double scaleFactor)
        : base(frame)
    {
        eccentricity = frame.Ellipsoid.Eccentricity;
        series = new KruegerSeries(frame.Ellipsoid);
        radius = series.RectifyingRadiusMetres * scaleFactor;
        northOfOrigin = Plane(latitudeOfOriginDegrees * RadiansPerDegree, 0).North;
    }

    public override string MethodName => "Transverse Mercator";

    protected override (double East, double North) Project(double latitude, double longitude)
    {
        if (Math.Abs(longitude) > Math.PI / 2) return (double.NaN, double.NaN);
        var (east, north) = Plane(latitude, longitude);
        return (east, north - northOfOrigin);
    }

    protected override (double Latitude, double Longitude) Unproject(double east, double north)
    {
        double xi = (north + northOfOrigin) / radius, eta = east / radius;
        if (!(Math.Abs(eta) <= LargestEta) || Math.Abs(xi) > Math.PI / 2 + 1e-9) return (double.NaN, double.NaN);
        var (dXi, dEta) = KruegerSeries.Sum(series.ToSphere, xi, eta);
        xi -= dXi;
        eta -= dEta;
        double sinh = Math.Sinh(eta), cos = Math.Cos(xi);
        var conformal = Math.Sin(xi) / Math.Sqrt(sinh * sinh + cos * cos);
        return (Math.Atan(ConformalLatitude.TangentToGeodetic(conformal, eccentricity)), Math.Atan2(sinh, cos));
    }

    private (double East, double North) Plane(double latitude, double longitude)
    {
        var conformal = ConformalLatitude.TangentFromGeodetic(Math.Tan(latitude), eccentricity);
        double cos = Math.Cos(longitude), sin = Math.Sin(longitude);
        double xi = Math.Atan2(conformal, cos), eta = Math.Asinh(sin / Math.Sqrt(conformal * conformal + cos * cos));
        if (!(Math.Abs(eta) <= LargestEta)) return (double.NaN, double.NaN);
        var (dXi, dEta) = KruegerSeries.Sum(series.ToPlane, xi, eta);
        return (radius * (eta + dEta), radius * (xi + dXi));
    }
}
