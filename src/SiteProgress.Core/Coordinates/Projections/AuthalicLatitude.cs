namespace SiteProgress.Core.Coordinates.Projections;

/// <summary>The latitude on a sphere of the same area onto which the ellipsoid maps without change of area (usually written beta or xi).</summary>
/// <remarks>
/// J. P. Snyder, Map Projections: A Working Manual, USGS Professional Paper 1395, equations 3-11 to 3-13. Both directions are written as
/// sine series whose coefficients come from the closed form, so that no digits are lost at the poles, where the closed form loses half.
/// </remarks>
internal sealed class AuthalicLatitude
{
    private const int Order = 8;
    private readonly double e;
    private readonly double e2m;
    private readonly double[] fromGeodetic;
    private readonly double[] toGeodetic;

    public AuthalicLatitude(Ellipsoid ellipsoid)
    {
        e = ellipsoid.Eccentricity;
        e2m = 1 - ellipsoid.EccentricitySquared;
        QAtPole = Q(1);
        RadiusMetres = ellipsoid.SemiMajorMetres * Math.Sqrt(QAtPole / 2);
        fromGeodetic = SineSeries.Fit(latitude => Math.Asin(Q(Math.Sin(latitude)) / QAtPole) - latitude, Order);
        toGeodetic = SineSeries.Fit(authalic => Solve(authalic) - authalic, Order);
    }

    /// <summary>Snyder's q at the pole.</summary>
    public double QAtPole { get; }

    /// <summary>Radius of the sphere of the same area, metres.</summary>
    public double RadiusMetres { get; }

    public double FromGeodetic(double latitude) => latitude + SineSeries.Sum(fromGeodetic, latitude);

    public double ToGeodetic(double authalic) => authalic + SineSeries.Sum(toGeodetic, authalic);

    private double Q(double sine) => e == 0
        ? 2 * sine
        : e2m * (sine / (1 - e * e * sine * sine) + Math.Atanh(e * sine) / e);

    private double Solve(double authalic)
    {
        var latitude = authalic;
        for (var i = 0; i < 12; i++)
        {
            double s = Math.Sin(latitude), w = 1 - e * e * s * s;
            latitude -= (Q(s) - QAtPole * Math.Sin(authalic)) * w * w / (2 * e2m * Math.Cos(latitude));
        }

        return latitude;
    }
}
