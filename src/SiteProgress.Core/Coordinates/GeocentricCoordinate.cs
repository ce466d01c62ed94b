namespace SiteProgress.Core.Coordinates;

/// <summary>A point in space, metres from the centre of its datum's ellipsoid (ISO 19111 geocentric Cartesian).</summary>
/// <param name="XMetres">Towards latitude 0, longitude 0.</param>
/// <param name="YMetres">Towards latitude 0, longitude 90 degrees east.</param>
/// <param name="ZMetres">Towards the north pole.</param>
public readonly record struct GeocentricCoordinate(double XMetres, double YMetres, double ZMetres)
{
    /// <summary>A geographic position with its height above the ellipsoid, as a point in space (EPSG method 9602).</summary>
    /// <param name="ellipsoid">The datum's ellipsoid.</param>
    /// <param name="position">Latitude and longitude on that datum, degrees.</param>
    /// <param name="heightMetres">Height above the ellipsoid, metres.</param>
    public static GeocentricCoordinate From(Ellipsoid ellipsoid, GeographicCoordinate position, double heightMetres)
    {
        ArgumentNullException.ThrowIfNull(ellipsoid);
        var latitude = position.LatitudeDegrees * Math.PI / 180;
        var (sin, cos) = Math.SinCos(latitude);
        var (sinLongitude, cosLongitude) = Math.SinCos(position.LongitudeDegrees * Math.PI / 180);
        var normal = ellipsoid.NormalRadiusMetres(latitude);
        var across = (normal + heightMetres) * cos;
        return new(across * cosLongitude, across * sinLongitude, (normal * (1 - ellipsoid.EccentricitySquared) + heightMetres) * sin);
    }

    /// <summary>The geographic position and the height above the ellipsoid of this point (EPSG method 9602, reverse).</summary>
    /// <remarks>
    /// B. R. Bowring, Transformation from spatial to geographical coordinates, Survey Review 23 (1976), repeated until it stands still;
    /// below a micrometre from 10 km under to 10 000 km above the ellipsoid.
    /// </remarks>
    public (GeographicCoordinate Position, double HeightMetres) ToGeographic(Ellipsoid ellipsoid)
    {
        ArgumentNullException.ThrowIfNull(ellipsoid);
        double a = ellipsoid.SemiMajorMetres, b = ellipsoid.SemiMinorMetres, e2 = ellipsoid.EccentricitySquared;
        var across = Math.Sqrt(XMetres * XMetres + YMetres * YMetres);
        double sinReduced = ZMetres * a, cosReduced = across * b, latitude = 0;
        for (var i = 0; i < 5; i++)
        {
            var length = Math.Sqrt(sinReduced * sinReduced + cosReduced * cosReduced);
            double s = sinReduced / length, c = cosReduced / length;
            latitude = Math.Atan2(ZMetres + e2 / (1 - e2) * b * s * s * s, across - e2 * a * c * c * c);
            (sinReduced, cosReduced) = ((1 - ellipsoid.Flattening) * Math.Sin(latitude), Math.Cos(latitude));
        }

        var (sin, cos) = Math.SinCos(latitude);
        var height = across * cos + ZMetres * sin - a * Math.Sqrt(1 - e2 * sin * sin);
        return (new(latitude * 180 / Math.PI, Math.Atan2(YMetres, XMetres) * 180 / Math.PI), height);
    }
}
