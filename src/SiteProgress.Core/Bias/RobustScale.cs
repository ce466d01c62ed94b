using SiteProgress.Core.Deviations;

namespace SiteProgress.Core.Bias;

/// <summary>Median, and a spread that a minority of wild values does not move.</summary>
/// <param name="Median">Median.</param>
/// <param name="Spread">1.4826 times the median distance from the median: the standard deviation where values are normal.</param>
/// <remarks>Rousseeuw and Croux, Alternatives to the median absolute deviation, Journal of the American Statistical Association 88 (1993) 1273-1283.</remarks>
internal readonly record struct RobustScale(double Median, double Spread)
{
    private const double NormalFactor = 1.482602218505602;

    /// <summary>Of at least one value; the values are kept as they are.</summary>
    public static RobustScale Of(ReadOnlySpan<double> values)
    {
        double[] copy = values.ToArray();
        double median = Quantiles.Median(copy);
        for (int index = 0; index < copy.Length; index++) copy[index] = Math.Abs(copy[index] - median);
        return new RobustScale(median, NormalFactor * Quantiles.Median(copy));
    }
}
