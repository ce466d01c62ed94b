namespace SiteProgress.Core.Coordinates;

/// <summary>How a projection turns and stretches the ground at one point.</summary>
/// <param name="ConvergenceDegrees">
/// Grid convergence, degrees: the bearing of grid north clockwise from true north. Positive where grid north lies east of true north;
/// true azimuth = grid bearing + convergence. Some national manuals print the opposite sign.
/// </param>
/// <param name="ScaleAlongMeridian">Grid metres for one metre on the ellipsoid, along the meridian.</param>
/// <param name="ScaleAlongParallel">The same along the parallel. Equal to the first on a conformal projection.</param>
public readonly record struct GridDistortion(double ConvergenceDegrees, double ScaleAlongMeridian, double ScaleAlongParallel)
{
    // A step of 1e-4 radian (about 640 m) keeps the fourth-order difference below 1e-12 in scale.
    private const double StepDegrees = 1e-4 * 180 / Math.PI;

    /// <summary>Point scale factor: the square root of the growth in area; on a conformal projection the scale in every direction.</summary>
    public double PointScaleFactor => Math.Sqrt(ScaleAlongMeridian * ScaleAlongParallel);

    /// <summary>Computes convergence and scale at a point from the projection itself, by fourth-order differences.</summary>
    /// <returns>NaN in every field where the point cannot be projected or lies within 0.1 degree of a pole.</returns>
    public static GridDistortion At(ProjectedCrs crs, GeographicCoordinate point)
    {
        ArgumentNullException.ThrowIfNull(crs);
        if (!(Math.Abs(point.LatitudeDegrees) < 89.9)) return new(double.NaN, double.NaN, double.NaN);
        Span<GeographicCoordinate> around = stackalloc GeographicCoordinate[8];
        Span<ProjectedCoordinate> there = stackalloc ProjectedCoordinate[8];
        ReadOnlySpan<double> steps = [-2, -1, 1, 2];
        for (var i = 0; i < 4; i++)
        {
            around[i] = new(point.LatitudeDegrees + steps[i] * StepDegrees, point.LongitudeDegrees);
            around[4 + i] = new(point.LatitudeDegrees, point.LongitudeDegrees + steps[i] * StepDegrees);
        }

        crs.Projection.Forward(around, there);
        var latitude = point.LatitudeDegrees * Math.PI / 180;
        var (northEast, northNorth) = Slope(there[..4]);
        var (eastEast, eastNorth) = Slope(there[4..]);
        return new(
            -Math.Atan2(northEast, northNorth) * 180 / Math.PI,
            Math.Sqrt(northEast * northEast + northNorth * northNorth) / crs.Ellipsoid.MeridianRadiusMetres(latitude),
            Math.Sqrt(eastEast * eastEast + eastNorth * eastNorth) / (crs.Ellipsoid.NormalRadiusMetres(latitude) * Math.Cos(latitude)));
    }

    /// <summary>Change of easting and northing for one radian, from values at -2, -1, 1 and 2 steps.</summary>
    private static (double East, double North) Slope(ReadOnlySpan<ProjectedCoordinate> p)
    {
        const double Divisor = 12 * StepDegrees * Math.PI / 180;
        return (
            (p[0].EastingMetres - p[3].EastingMetres + 8 * (p[2].EastingMetres - p[1].EastingMetres)) / Divisor,
            (p[0].NorthingMetres - p[3].NorthingMetres + 8 * (p[2].NorthingMetres - p[1].NorthingMetres)) / Divisor);
    }
}
