using SiteProgress.Core.Deviations;

namespace SiteProgress.Core.Bias;

/// <summary>What a series of set-ups is about.</summary>
internal enum SeriesKind
{
    /// <summary>One casing against the others of its set-up, in the barge's axes.</summary>
    Casing = 1,

    /// <summary>A barge's set-ups in its own axes.</summary>
    BargeAxes,

    /// <summary>A barge's set-ups on the CRS grid.</summary>
    BargeGrid,

    /// <summary>All set-ups on the CRS grid.</summary>
    SiteGrid,

    /// <summary>All set-ups, turned about the middle of the site.</summary>
    SiteTurn,
}

/// <summary>
/// One value (two components) a set-up in order of time, scaled so that all have the same spread, and how strongly each shows an
/// offset of one metre.
/// </summary>
internal sealed class Series
{
    private const double ClipSpreads = 3;
    private const int LeastBlocks = 6;
    private readonly double medianFirst;
    private readonly double medianSecond;

    public Series(SeriesKind kind, int barge, int? casing, int[] setUps, double[] first, double[] second, double[] strength)
    {
        (Kind, Barge, Casing, SetUps, Strength) = (kind, barge, casing, setUps, strength);
        (First, medianFirst) = Standard(first);
        (Second, medianSecond) = Standard(second);
    }

    public SeriesKind Kind { get; }

    /// <summary>Place of the barge; -1 for the site.</summary>
    public int Barge { get; }

    public int? Casing { get; }

    /// <summary>Places of the set-ups, in order of time.</summary>
    public int[] SetUps { get; }

    /// <summary>First component in spreads, wild values cut to <see cref="ClipSpreads"/> from the median.</summary>
    public double[] First { get; }

    /// <summary>Second component in spreads.</summary>
    public double[] Second { get; }

    public double[] Strength { get; }

    public int Length => SetUps.Length;

    /// <summary>
    /// How much more a mean of many set-ups varies than it would were they independent, at least 1: weather and current last longer
    /// than a set-up. Set by <see cref="SetLasting"/>.
    /// </summary>
    public double Lasting { get; private set; } = 1;

    /// <summary>Works out how long errors last, from all series of one kind together: the spread of the means of blocks of set-ups.</summary>
    public static void SetLasting(IReadOnlyList<Series> alike)
    {
        double[] means = alike.Where(series => series.Length / series.BlockLength >= LeastBlocks).SelectMany(series => series.BlockMeans()).ToArray();
        if (means.Length == 0) return;
        double spread = RobustScale.Of(means).Spread;
        foreach (Series series in alike) series.Lasting = Math.Max(1, spread * spread);
    }

    private int BlockLength => Math.Max(6, (int)Math.Round(Math.Pow(Length, 0.55)));

    /// <summary>Means of blocks about the component's median, times the root of the block's length: of spread 1 where set-ups are independent.</summary>
    private IEnumerable<double> BlockMeans()
    {
        int block = BlockLength;
        foreach ((double[] component, double median) in new[] { (First, medianFirst), (Second, medianSecond) })
        {
            for (int index = 0; index + block <= Length; index += block)
                yield return (component.AsSpan(index, block).Average() - median) * Math.Sqrt(block);
        }
    }

    /// <summary>
    /// Values in spreads. The spread is that of differences between neighbours, which a change of the mean does not widen (von Neumann and
    /// others, The mean square successive difference, Annals of Mathematical Statistics 12 (1941) 153-162), of values cut so that few
    /// wild ones do not widen it either.
    /// </summary>
    private static (double[] Values, double Median) Standard(double[] values)
    {
        if (values.Length == 0) return (values, 0);
        RobustScale scale = RobustScale.Of(values);
        double[] cut = Cut(values, scale.Median, Math.Max(ReviewData.LeastSpread, scale.Spread) * (ClipSpreads + 1));
        double squares = 0;
        for (int index = 1; index < cut.Length; index++) squares += (cut[index] - cut[index - 1]) * (cut[index] - cut[index - 1]);
        double spread = Math.Max(ReviewData.LeastSpread, cut.Length > 1 ? Math.Sqrt(squares / (2 * (cut.Length - 1))) : 0);
        return (Array.ConvertAll(Cut(values, scale.Median, spread * ClipSpreads), value => value / spread), scale.Median / spread);
    }

    private static double[] Cut(double[] values, double middle, double reach) => Array.ConvertAll(values, value => Math.Clamp(value, middle - reach, middle + reach));
}

/// <summary>Averages of spans.</summary>
internal static class Spans
{
    /// <summary>Arithmetic mean of at least one value.</summary>
    public static double Average(this Span<double> values)
    {
        double sum = 0;
        foreach (double value in values) sum += value;
        return sum / values.Length;
    }
}
