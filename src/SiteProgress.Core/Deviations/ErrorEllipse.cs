namespace SiteProgress.Core.Deviations;

/// <summary>The ellipse of one standard deviation of deviations in plan, metres.</summary>
/// <param name="SemiMajorMetres">Longer half axis, metres.</param>
/// <param name="SemiMinorMetres">Shorter half axis, metres.</param>
/// <param name="BearingDegrees">Direction of the longer axis, degrees clockwise from CRS grid north, 0 to below 180.</param>
/// <remarks>
/// Half axes are the square roots of the eigenvalues of the covariance matrix. Enlarged by <see cref="Nssda.FactorRatio"/> it
/// holds 95 % of a normal distribution whose covariance is known (chi-square with two degrees of freedom, 5.99146).
/// </remarks>
public sealed record ErrorEllipse(double SemiMajorMetres, double SemiMinorMetres, double BearingDegrees)
{
    /// <summary>The ellipse of a covariance matrix.</summary>
    /// <param name="varianceEast">Variance of dE, square metres.</param>
    /// <param name="varianceNorth">Variance of dN, square metres.</param>
    /// <param name="covariance">Covariance of dE and dN, square metres.</param>
    public static ErrorEllipse Of(double varianceEast, double varianceNorth, double covariance)
    {
        double middle = (varianceEast + varianceNorth) / 2;
        double half = (varianceEast - varianceNorth) / 2;
        double reach = Math.Sqrt((half * half) + (covariance * covariance));
        double fromEast = 0.5 * Math.Atan2(covariance, half) * 180 / Math.PI;
        return new ErrorEllipse(
            Math.Sqrt(Math.Max(0, middle + reach)), Math.Sqrt(Math.Max(0, middle - reach)), ((90 - fromEast) % 180 + 180) % 180);
    }
}
