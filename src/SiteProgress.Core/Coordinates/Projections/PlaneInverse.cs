namespace SiteProgress.Core.Coordinates.Projections;

/// <summary>Turns a forward projection round by Newton's method, for methods whose published inverse is only approximate.</summary>
internal static class PlaneInverse
{
    private const int MostSteps = 20;
    private const double StepRadians = 1e-5;
    private const double GoodEnoughMetres = 1e-8;

    /// <summary>The position that projects to (east, north), from a first guess; NaN where none is found.</summary>
    public static (double Latitude, double Longitude) Solve(
        Func<double, double, (double East, double North)> forward, double east, double north, double latitude, double longitude)
    {
        for (var step = 0; step < MostSteps; step++)
        {
            var here = forward(latitude, longitude);
            double de = east - here.East, dn = north - here.North;
            if (!double.IsFinite(de + dn)) break;
            if (Math.Abs(de) + Math.Abs(dn) < GoodEnoughMetres) return (latitude, longitude);
            var (up, down) = (forward(latitude + StepRadians, longitude), forward(latitude - StepRadians, longitude));
            var (right, left) = (forward(latitude, longitude + StepRadians), forward(latitude, longitude - StepRadians));
            double eLat = (up.East - down.East) / 2, nLat = (up.North - down.North) / 2;
            double eLon = (right.East - left.East) / 2, nLon = (right.North - left.North) / 2;
            var determinant = eLon * nLat - eLat * nLon;
            latitude += (eLon * dn - nLon * de) / determinant * StepRadians;
            longitude += (nLat * de - eLat * dn) / determinant * StepRadians;
        }

        var end = forward(latitude, longitude);
        return Math.Abs(east - end.East) + Math.Abs(north - end.North) < 1e-6 ? (latitude, longitude) : (double.NaN, double.NaN);
    }
}
