namespace SiteProgress.Core.Coordinates.Projections;

/// <summary>The latitude in which a conformal map of the ellipsoid is a conformal map of the plane (usually written psi).</summary>
/// <remarks>psi = asinh(tan phi) - e atanh(e sin phi); exp(-psi) is the quantity t of IOGP Guidance Note 7-2, without its loss of digits.</remarks>
internal static class IsometricLatitude
{
    public static double FromGeodetic(double latitude, double eccentricity) =>
        Math.Asinh(Math.Tan(latitude)) - eccentricity * Math.Atanh(eccentricity * Math.Sin(latitude));

    public static double ToGeodetic(double isometric, double eccentricity) =>
        Math.Atan(ConformalLatitude.TangentToGeodetic(Math.Sinh(isometric), eccentricity));
}
