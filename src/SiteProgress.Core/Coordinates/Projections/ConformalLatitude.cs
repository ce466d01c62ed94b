namespace SiteProgress.Core.Coordinates.Projections;

/// <summary>The latitude on a sphere onto which the ellipsoid maps without change of angles, by tangents.</summary>
/// <remarks>
/// C. F. F. Karney, Transverse Mercator with an accuracy of a few nanometers, Journal of Geodesy 85 (2011), equations 7 to 9 and 19 to 21.
/// Working with tangents keeps full precision at the equator and at the poles alike.
/// </remarks>
internal static class ConformalLatitude
{
    /// <summary>Tangent of the conformal latitude from the tangent of the geodetic latitude.</summary>
    public static double TangentFromGeodetic(double tangent, double eccentricity)
    {
        var secant = Math.Sqrt(1 + tangent * tangent);
        var sigma = Math.Sinh(eccentricity * Math.Atanh(eccentricity * tangent / secant));
        return Math.Sqrt(1 + sigma * sigma) * tangent - sigma * secant;
    }

    /// <summary>Tangent of the geodetic latitude from the tangent of the conformal latitude, by Newton's method.</summary>
    public static double TangentToGeodetic(double conformalTangent, double eccentricity)
    {
        var e2m = 1 - eccentricity * eccentricity;
        if (!double.IsFinite(conformalTangent)) return conformalTangent;
        var tangent = Math.Abs(conformalTangent) > 70
            ? conformalTangent * Math.Exp(eccentricity * Math.Atanh(eccentricity))
            : conformalTangent / e2m;
        var stop = 1e-16 * Math.Max(1, Math.Abs(conformalTangent));
        for (var i = 0; i < 5; i++)
        {
            var reached = TangentFromGeodetic(tangent, eccentricity);
            var step = (conformalTangent - reached) * (1 + e2m * tangent * tangent)
                / (e2m * Math.Sqrt(1 + tangent * tangent) * Math.Sqrt(1 + reached * reached));
            tangent += step;
            if (!(Math.Abs(step) >= stop)) break;
        }

        return tangent;
    }
}
