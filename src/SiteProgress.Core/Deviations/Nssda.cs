namespace SiteProgress.Core.Deviations;

/// <summary>Radius within which 95 % of positions lie, by the rule of the NSSDA, or why it gives none.</summary>
/// <param name="RadiusMetres">The radius, metres; null where the standard gives none.</param>
/// <param name="WhyNone">Why there is none; null where there is one.</param>
/// <remarks>
/// FGDC-STD-007.3-1998, National Standard for Spatial Data Accuracy, horizontal accuracy: 2.4477 times half the sum of the two
/// RMSE as long as the smaller is at least 0.6 of the larger, from at least 20 points. The factor is not typed but computed:
/// the 95 % quantile of the radius of a circular normal distribution, sqrt(-2 ln 0.05).
/// </remarks>
public sealed record Nssda(double? RadiusMetres, string? WhyNone)
{
    /// <summary>Fewest points the standard asks for.</summary>
    public static int LeastCount => 20;

    /// <summary>Radius of a circular normal distribution with standard deviation 1 that holds 95 %: 2.447747.</summary>
    public static double FactorRatio { get; } = CircularRadiusRatio(0.95);

    private static double LeastAxisRatio => 0.6;

    /// <summary>The radius, in standard deviations of one axis, that holds a share of a circular normal distribution (Rayleigh).</summary>
    /// <param name="shareRatio">The share, 0 to below 1.</param>
    public static double CircularRadiusRatio(double shareRatio) => Math.Sqrt(-2 * Math.Log(1 - shareRatio));

    /// <summary>Applies the rule.</summary>
    /// <param name="count">How many points.</param>
    /// <param name="eastRmseMetres">RMSE of dE, metres.</param>
    /// <param name="northRmseMetres">RMSE of dN, metres.</param>
    internal static Nssda Of(int count, double eastRmseMetres, double northRmseMetres)
    {
        if (count < LeastCount) return new Nssda(null, $"The standard asks for at least {LeastCount} points; there are {count}.");
        double smaller = Math.Min(eastRmseMetres, northRmseMetres);
        double larger = Math.Max(eastRmseMetres, northRmseMetres);
        return smaller < LeastAxisRatio * larger
            ? new Nssda(null, "The two RMSE differ too much: the standard's rule holds while the smaller is at least 0.6 of the larger.")
            : new Nssda(FactorRatio * 0.5 * (eastRmseMetres + northRmseMetres), null);
    }
}
