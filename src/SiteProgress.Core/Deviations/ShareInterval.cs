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
    /// <param name="within">Of each group how many have the property.</param>
    /// <param name="counts">Of each group of how many; at least one group with one item, empty ones do not count.</param>
    public static ShareInterval Of(ReadOnlySpan<int> within, ReadOnlySpan<int> counts)
    {
        (long all, long having, int groups) = (0, 0, 0);
        for (int group = 0; group < counts.Length; group++)
        {
            (all, having) = (all + counts[group], having + within[group]);
            if (counts[group] > 0) groups++;
        }

        double share = (double)having / all;
        if (groups < 2 || having == 0 || having == all) return Wilson(share, groups);
        double squares = 0;
        for (int group = 0; group < counts.Length; group++)
        {
            double apart = within[group] - (share * counts[group]);
            squares += apart * apart;
        }

        double designEffect = squares * groups / (groups - 1.0) / all / (share * (1 - share));
        return Wilson(share, Math.Clamp(all / Math.Max(1, designEffect), 1, all));
    }

    private static ShareInterval Wilson(double share, double count)
    {
        double square = Factor * Factor;
        double middle = (share + (square / (2 * count))) / (1 + (square / count));
        double half = Factor / (1 + (square / count)) * Math.Sqrt((share * (1 - share) / count) + (square / (4 * count * count)));
        return new ShareInterval(share, Math.Max(0, middle - half), Math.Min(1, middle + half), count);
    }
}
