namespace SiteProgress.Core.Deviations;

/// <summary>What a selection of inclinations amounts to, degrees from the vertical. An inclination has a size and no sign, so no mean of it is a bias.</summary>
/// <param name="Count">How many.</param>
/// <param name="MeanDegrees">Mean.</param>
/// <param name="MedianDegrees">Half are at most this.</param>
/// <param name="Percentile95Degrees">95 % are at most this: value at place (n - 1) p of the sorted values (Hyndman and Fan 1996, type 7).</param>
/// <param name="LargestDegrees">Largest.</param>
/// <param name="WithinLimit">How many are within their limit.</param>
/// <param name="Within">Their share with its interval.</param>
/// <param name="BeyondAlert">How many are beyond the site's own alert; null where no alert is set for any of them.</param>
public sealed record InclinationFigures(
    int Count, double MeanDegrees, double MedianDegrees, double Percentile95Degrees, double LargestDegrees, int WithinLimit, ShareInterval Within, int? BeyondAlert)
{
    /// <summary>Figures of a selection; null when there is no inclination.</summary>
    /// <param name="inclinations">Inclinations held against their limits, degrees, any order.</param>
    public static InclinationFigures? Of(IReadOnlyCollection<LimitAnswer> inclinations)
    {
        ArgumentNullException.ThrowIfNull(inclinations);
        if (inclinations.Count == 0) return null;
        double[] degrees = [.. inclinations.Select(one => one.Value)];
        int within = inclinations.Count(one => one.IsMet);
        return new InclinationFigures(
            degrees.Length,
            degrees.Average(),
            Quantiles.Median((double[])degrees.Clone()),
            Quantiles.Of((double[])degrees.Clone(), 0.95),
            degrees.Max(),
            within,
            ShareInterval.Of(within, degrees.Length),
            inclinations.Any(one => one.Alert is not null) ? inclinations.Count(one => one.IsBeyondAlert) : null);
    }
}
