namespace SiteProgress.Core.Coordinates;

/// <summary>The box of latitudes and longitudes in which a projected CRS is meant to be used, as the register states it.</summary>
/// <param name="SouthDegrees">Southern limit, degrees.</param>
/// <param name="WestDegrees">Western limit, degrees; greater than the eastern one where the area crosses the 180th meridian.</param>
/// <param name="NorthDegrees">Northern limit, degrees.</param>
/// <param name="EastDegrees">Eastern limit, degrees.</param>
public sealed record AreaOfUse(double SouthDegrees, double WestDegrees, double NorthDegrees, double EastDegrees)
{
    private const double MeanEarthRadiusMetres = 6_371_008.8;

    /// <summary>Width of the area, degrees of longitude.</summary>
    public double WidthDegrees => EastDegrees >= WestDegrees ? EastDegrees - WestDegrees : EastDegrees - WestDegrees + 360;

    /// <summary>Whether a position lies in the area.</summary>
    public bool Contains(GeographicCoordinate point) => DistanceOutsideMetres(point) == 0;

    /// <summary>
    /// How far a position lies outside the area, metres: 0 inside; otherwise the distance on a mean sphere to the nearest corner or side,
    /// taken along parallel and meridian, good to about one part in a hundred. NaN for a position that is not a number.
    /// </summary>
    public double DistanceOutsideMetres(GeographicCoordinate point)
    {
        var nearestLatitude = Math.Clamp(point.LatitudeDegrees, SouthDegrees, NorthDegrees);
        var fromWest = Turn(point.LongitudeDegrees - WestDegrees);
        var outside = fromWest <= WidthDegrees ? 0 : Math.Min(fromWest - WidthDegrees, 360 - fromWest);
        if (outside == 0 && nearestLatitude == point.LatitudeDegrees) return 0;
        double latitude1 = point.LatitudeDegrees * Math.PI / 180, latitude2 = nearestLatitude * Math.PI / 180;
        double a = Math.Sin((latitude2 - latitude1) / 2), b = Math.Sin(outside * Math.PI / 360);
        return 2 * MeanEarthRadiusMetres * Math.Asin(Math.Min(1, Math.Sqrt(a * a + Math.Cos(latitude1) * Math.Cos(latitude2) * b * b)));
    }

    private static double Turn(double degrees)
    {
        var turned = degrees % 360;
        return turned < 0 ? turned + 360 : turned;
    }
}
