using MathNet.Numerics.Distributions;

namespace SiteProgress.Core.Deviations;

/// <summary>A share with its 95 % confidence interval, ratios from 0 to 1.</summary>
/// <param name="ShareRatio">The share.</param>
/// <param name="LowerRatio">Lower end of the interval.</param>
/// <param name="UpperRatio">Upper end of the interval.</param>
/// <param name="EffectiveCount">How many independent piles carry as much information; at most the count.</param>
/// <remarks>
/// Wilson, Probable inference, the law of succession, and statistical inference, Journal of the American Statistical Association 22
/// (1927) 209-212. Piles of one set-up share its error, so the count is divided by the design effect: the variance of the share
/// between set-ups over the variance that independent piles would have (Kish, Survey Sampling, 1965, chapter 5). Where all or
/// none are within, that ratio cannot be worked out, and the set-ups themselves are counted.
/// </remarks>
public sealed record ShareInterval(double ShareRatio, double LowerRatio, double UpperRatio, double EffectiveCount)
{
    private static readonly double Factor = Normal.InvCDF(0, 1, 0.975);

    /// <summary>The interval of a share of independent items.</summary>
    /// <param name="within">How many have the property.</param>
    /// <param name="count">Of how many, at least 1.</param>
    public static ShareInterval Of(int within, int count) => Wilson((double)within / count, count);

    /// <summary>The interval of a share of items that come in groups.</summary>
    /// <param name="groups">Of each group how many have the property, and of how many; at least one group with one item.</param>
    public static ShareInterval Of(IReadOnlyCollection<(int Within, int Count)> groups)
    {
        ArgumentNullException.ThrowIfNull(groups);
        int count = groups.Sum(group => group.Count);
        double share = (double)groups.Sum(group => group.Within) / count;
        if (groups.Count < 2) return Wilson(share, groups.Count);
        if (share is 0 or 1) return Wilson(share, groups.Count);
        double between = groups.Sum(group => Math.Pow(group.Within - (share * group.Count), 2)) * groups.Count / (groups.Count - 1.0) / ((double)count * count);
        double designEffect = between / (share * (1 - share) / count);
        return Wilson(share, Math.Clamp(count / Math.Max(1, designEffect), 1, count));
    }

    private static ShareInterval Wilson(double share, double count)
    {
        double square = Factor * Factor;
        double middle = (share + (square / (2 * count))) / (1 + (square / count));
        double half = Factor / (1 + (square / count)) * Math.Sqrt((share * (1 - share) / count) + (square / (4 * count * count)));
        return new ShareInterval(share, Math.Max(0, middle - half), Math.Min(1, middle + half), count);
    }
}
