using MathNet.Numerics.Distributions;

namespace SiteProgress.Core.Coordinates;

/// <summary>Whether a mark has moved between two surveys of it.</summary>
/// <param name="EastMetres">Later minus earlier easting, metres.</param>
/// <param name="NorthMetres">Later minus earlier northing, metres.</param>
/// <param name="Statistic">Squared length over the variance of one coordinate's difference.</param>
/// <param name="HasMoved">True where the movement is more than both surveys' errors explain, at 99 %.</param>
public sealed record ControlPointMovement(double EastMetres, double NorthMetres, double Statistic, bool HasMoved)
{
    private const double Confidence = 0.99;

    /// <summary>What the statistic of a mark at rest stays below in 99 of 100 cases: chi-squared with two degrees of freedom.</summary>
    public static double Limit { get; } = ChiSquared.InvCDF(2, Confidence);

    /// <summary>Length of the movement, metres.</summary>
    public double LengthMetres => Math.Sqrt(EastMetres * EastMetres + NorthMetres * NorthMetres);

    /// <summary>Tests two surveys of the same mark by chi-squared with two degrees of freedom.</summary>
    /// <param name="earlier">The earlier position, projected CRS, metres.</param>
    /// <param name="earlierDeviationMetres">Standard deviation of one of its coordinates, metres.</param>
    /// <param name="later">The later position, projected CRS, metres.</param>
    /// <param name="laterDeviationMetres">Standard deviation of one of its coordinates, metres.</param>
    /// <remarks>Congruence test of deformation surveys for a single point; Ghilani, Adjustment Computations, chapter 4, for the statistic.</remarks>
    public static ControlPointMovement Test(
        ProjectedCoordinate earlier, double earlierDeviationMetres, ProjectedCoordinate later, double laterDeviationMetres)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(earlierDeviationMetres);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(laterDeviationMetres);
        double east = later.EastingMetres - earlier.EastingMetres, north = later.NorthingMetres - earlier.NorthingMetres;
        var statistic = (east * east + north * north)
            / (earlierDeviationMetres * earlierDeviationMetres + laterDeviationMetres * laterDeviationMetres);
        return new(east, north, statistic, statistic > Limit);
    }
}
