namespace SiteProgress.Core.Coordinates;

/// <summary>The figure of the earth that a datum uses.</summary>
/// <param name="Name">Its name as the definition writes it.</param>
/// <param name="SemiMajorMetres">Equatorial radius a, metres.</param>
/// <param name="Flattening">f = (a - b) / a; 0 for a sphere.</param>
public sealed record Ellipsoid(string Name, double SemiMajorMetres, double Flattening)
{
    /// <summary>The ellipsoid as definitions give it: radius and inverse flattening, where 0 stands for a sphere.</summary>
    public static Ellipsoid FromInverseFlattening(string name, double semiMajorMetres, double inverseFlattening) =>
        new(name, semiMajorMetres, inverseFlattening == 0 ? 0 : 1 / inverseFlattening);

    /// <summary>First eccentricity squared, e² = f (2 - f).</summary>
    public double EccentricitySquared => Flattening * (2 - Flattening);

    /// <summary>First eccentricity e.</summary>
    public double Eccentricity => Math.Sqrt(EccentricitySquared);

    /// <summary>Third flattening, n = f / (2 - f).</summary>
    public double ThirdFlattening => Flattening / (2 - Flattening);

    /// <summary>Polar radius b, metres.</summary>
    public double SemiMinorMetres => SemiMajorMetres * (1 - Flattening);

    /// <summary>Radius of curvature in the meridian, metres, at a latitude in radians (usually written rho or M).</summary>
    public double MeridianRadiusMetres(double latitudeRadians)
    {
        var s = Math.Sin(latitudeRadians);
        var w = 1 - EccentricitySquared * s * s;
        return SemiMajorMetres * (1 - EccentricitySquared) / (w * Math.Sqrt(w));
    }

    /// <summary>Radius of curvature across the meridian, metres, at a latitude in radians (usually written nu or N).</summary>
    public double NormalRadiusMetres(double latitudeRadians)
    {
        var s = Math.Sin(latitudeRadians);
        return SemiMajorMetres / Math.Sqrt(1 - EccentricitySquared * s * s);
    }
}
