namespace SiteProgress.Core.Bias;

/// <summary>A run of set-ups whose mean differs from zero more than any other.</summary>
/// <param name="Series">The series it is a part of.</param>
/// <param name="From">First place in the series.</param>
/// <param name="To">Last place in the series.</param>
/// <param name="Statistic">Squared mean over its variance: chi-square with two degrees of freedom for one run named beforehand.</param>
/// <param name="Chance">Chance of so large a value for one run named beforehand.</param>
internal sealed record FoundRun(Series Series, int From, int To, double Statistic, double Chance);

/// <summary>
/// Finds when a change began and ended: the likelihood-ratio scan for a run of values with another mean. Long series are first
/// looked at in blocks, and the ends of the best run are then moved set-up by set-up.
/// </summary>
/// <remarks>Levin and Kline, The CUSUM test of homogeneity, Statistics in Medicine 4 (1985) 469-488 (a change that begins and ends);
/// Hawkins, Testing a sequence of observations for a shift in location, Journal of the American Statistical Association 72 (1977) 180-186.</remarks>
internal sealed class ChangeScan
{
    /// <summary>Shorter runs are left to the single pile's own check.</summary>
    public const int LeastSetUps = 3;

    private const int LeastSeries = 5;
    private const int MostBlocks = 400;

    /// <summary>A spread from differences between neighbours carries the information of this share of the values (von Neumann and others 1941).</summary>
    private const double Efficiency = 2.0 / 3;

    private readonly Series series;
    private readonly double[] first;
    private readonly double[] second;
    private readonly double[] squares;

    private ChangeScan(Series series)
    {
        this.series = series;
        (first, second, squares) = (new double[series.Length + 1], new double[series.Length + 1], new double[series.Length + 1]);
        for (int index = 0; index < series.Length; index++)
        {
            double strength = series.Strength[index];
            first[index + 1] = first[index] + (strength * series.First[index]);
            second[index + 1] = second[index] + (strength * series.Second[index]);
            squares[index + 1] = squares[index] + (strength * strength);
        }
    }

    /// <summary>The run that stands out most; null in a series too short to say.</summary>
    public static FoundRun? Best(Series series)
    {
        if (series.Length < LeastSeries) return null;
        ChangeScan scan = new(series);
        (int from, int end) = scan.Refine(scan.Coarse());
        double statistic = scan.Statistic(from, end) / series.Lasting;
        return new FoundRun(series, from, end - 1, statistic, Tail(statistic, Efficiency * series.Length));
    }

    /// <summary>How many runs a scan of so many values in effect looks at.</summary>
    public static double Looks(int length) => length < LeastSeries ? 0 : 2 * length * Math.Max(1, Math.Log(length));

    /// <summary>Upper tail of twice F with 2 degrees of freedom between and so many within.</summary>
    private static double Tail(double statistic, double within) => Math.Exp(-within / 2 * Math.Log(1 + (statistic / within)));

    private (int From, int End) Coarse()
    {
        int block = (series.Length + MostBlocks - 1) / MostBlocks;
        int last = (series.Length + block - 1) / block;
        (int From, int End) best = (0, series.Length);
        double most = -1;
        for (int from = 0; from < last; from++)
        {
            for (int end = from + 1; end <= last; end++)
            {
                (int one, int other) = (from * block, Math.Min(series.Length, end * block));
                if (other - one < LeastSetUps) continue;
                double statistic = Statistic(one, other);
                if (statistic > most) (most, best) = (statistic, (one, other));
            }
        }

        return best;
    }

    private (int From, int End) Refine((int From, int End) coarse)
    {
        (int from, int end) = coarse;
        int reach = 2 * ((series.Length + MostBlocks - 1) / MostBlocks);
        for (int turn = 0; turn < 3; turn++)
        {
            int kept = end;
            from = Enumerable.Range(Math.Max(0, from - reach), (2 * reach) + 1).Where(place => kept - place >= LeastSetUps).MaxBy(place => Statistic(place, kept));
            int begun = from;
            end = Enumerable.Range(Math.Max(0, end - reach), (2 * reach) + 1).Where(place => place <= series.Length && place - begun >= LeastSetUps).MaxBy(place => Statistic(begun, place));
        }

        return (from, end);
    }

    private double Statistic(int from, int end)
    {
        double weight = squares[end] - squares[from];
        if (!(weight > 1e-9)) return 0;
        (double x, double y) = (first[end] - first[from], second[end] - second[from]);
        return ((x * x) + (y * y)) / weight;
    }
}
