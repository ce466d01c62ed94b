namespace SiteProgress.Core.Bias;

/// <summary>Bounds the share of false ones among what many tests single out.</summary>
/// <remarks>Benjamini and Hochberg, Controlling the false discovery rate, Journal of the Royal Statistical Society B 57 (1995) 289-300.</remarks>
public static class FalseDiscovery
{
    /// <summary>For each test the smallest bound at which it would be singled out; singled out at a bound are those at most that.</summary>
    /// <param name="chances">Chances (p-values) of the tests.</param>
    public static double[] Adjusted(IReadOnlyList<double> chances)
    {
        ArgumentNullException.ThrowIfNull(chances);
        int[] ascending = Enumerable.Range(0, chances.Count).OrderBy(index => chances[index]).ToArray();
        double[] adjusted = new double[chances.Count];
        double least = 1;
        for (int rank = ascending.Length; rank >= 1; rank--)
        {
            least = Math.Min(least, chances[ascending[rank - 1]] * ascending.Length / rank);
            adjusted[ascending[rank - 1]] = least;
        }

        return adjusted;
    }
}
