namespace SiteProgress.Core.Coordinates.Projections;

/// <summary>
/// The latitude in which a conformal map of the ellipsoid is a conformal map of the plane (usually written psi), there and back by series.
/// </summary>
/// <remarks>
/// psi = ln tan(pi/4 + chi/2) with chi the conformal latitude; exp(-psi) is the quantity t of IOGP Guidance Note 7-2. Conformal and geodetic
/// latitude differ by a sine series whose coefficients are found from the closed form when the object is made; six terms leave less than a
/// nanometre on any ellipsoid of the earth, and no iteration is left in the inverse.
/// </remarks>
internal sealed class IsometricLatitude
{
    private const int Order = 6;
    private readonly double[] toConformal;
    private readonly double[] toGeodetic;

    public IsometricLatitude(Ellipsoid ellipsoid)
    {
        var e = ellipsoid.Eccentricity;
        toConformal = SineSeries.Fit(latitude => Math.Atan(ConformalLatitude.TangentFromGeodetic(Math.Tan(latitude), e)) - latitude, Order);
        toGeodetic = SineSeries.Fit(conformal => Math.Atan(ConformalLatitude.TangentToGeodetic(Math.Tan(conformal), e)) - conformal, Order);
    }

    public double FromGeodetic(double latitude)
    {
        var (sin, cos) = Math.SinCos(latitude + SineSeries.Sum(toConformal, latitude));
        // Towards the north pole 1 - sin loses digits and cos does not; towards the south the two change places.
        return sin >= 0 ? Math.Log((1 + sin) / cos) : Math.Log(cos / (1 - sin));
    }

    public double ToGeodetic(double isometric)
    {
        var t = Math.Exp(-Math.Abs(isometric));
        double conformal = Math.PI / 2 - 2 * Math.Atan(t), t2 = t * t, d = 1 / (1 + t2), sin = (1 - t2) * d, cos = 2 * t * d;
        var latitude = conformal + SineSeries.Sum(toGeodetic, 2 * sin * cos, 1 - 2 * sin * sin);
        return isometric < 0 ? -latitude : latitude;
    }

    /// <summary>Closed form for one latitude, for constants that are made once.</summary>
    public static double Exact(double latitude, double eccentricity) =>
        Math.Asinh(Math.Tan(latitude)) - eccentricity * Math.Atanh(eccentricity * Math.Sin(latitude));
}
