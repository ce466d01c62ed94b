using MathNet.Numerics.Distributions;

namespace SiteProgress.Core.Forecast;

/// <summary>
/// Days that may be drawn, in order, and which of them one run believes in. A run that doubts draws as many blocks as the history
/// holds, with repetition, and the future from those blocks alone: the spread between such beliefs is what the history leaves unknown.
/// </summary>
/// <remarks>
/// Block sums drawn from a history of n days in blocks of L scatter less than the truth, for two known reasons. Their spread is
/// taken about the history's own mean: factor 1 - L / n. And what holds together beyond a block's end is cut: for days whose
/// correlation falls as r^k, the blocks keep 1 + 2 sum (1 - k / L) r^k of 1 + 2 sum r^k. Every block is therefore moved away from the
/// mean by the root of both, and a belief further by Student's quantile over the normal one, t(0.9; n / L - 1) / z(0.9). The
/// correlation r is that of the history from day to day, with its bias of -(1 + 3 r) / n put right (Kendall, 1954); the cut is that
/// of Künsch (1989), section 3. The Student quantile is common practice for a mean of few values, no source.
/// </remarks>
internal sealed class Belief
{
    private readonly int[] _days;
    private readonly int[] _round;
    private readonly double[] _sumOfShares;
    private readonly int[] _starts;
    private readonly int _block;
    private readonly bool _doubts;
    private readonly double _mean;
    private readonly double _blockSpread;
    private readonly double _beliefSpread;
    private double _believed;

    public Belief(int[] days, double[] shares, int block, bool doubts)
    {
        (_days, _doubts) = (days, doubts);
        int n = days.Length;
        _round = [.. days, .. days];
        _block = Math.Max(1, Math.Min(block, n));
        // Sums over the days laid out twice, so that a block round the end is one subtraction too.
        _sumOfShares = new double[(2 * n) + 1];
        for (int index = 0; index < 2 * n; index++) _sumOfShares[index + 1] = _sumOfShares[index] + shares[days[index % n]];
        _mean = n == 0 ? 1 : _sumOfShares[n] / n;
        _believed = _mean;
        _starts = new int[Math.Max(1, (int)Math.Round((double)n / _block))];
        if (!doubts) return;
        double within = n > _block ? 1 - ((double)_block / n) : 0.25;
        _blockSpread = Math.Sqrt(Cut(Correlation(days, shares), _block) / within);
        _beliefSpread = _blockSpread * StudentT.InvCDF(0, 1, Math.Max(1.5, ((double)n / _block) - 1), 0.9) / 1.2815515655446004;
    }

    private Belief(Belief other)
    {
        (_days, _round, _sumOfShares, _block, _doubts) = (other._days, other._round, other._sumOfShares, other._block, other._doubts);
        (_mean, _blockSpread, _beliefSpread, _believed) = (other._mean, other._blockSpread, other._beliefSpread, other._mean);
        _starts = new int[other._starts.Length];
    }

    /// <summary>Working days in one block.</summary>
    public int Block => _block;

    /// <summary>Places at which a block can begin: as many as there are days.</summary>
    public int Places => _days.Length;

    /// <summary>The same days with a belief of its own, to be drawn beside this one.</summary>
    public Belief Beside() => new(this);

    /// <summary>Draws a belief.</summary>
    public void Draw(ChanceStream chance)
    {
        if (!_doubts || _days.Length == 0) return;
        double sum = 0;
        for (int index = 0; index < _starts.Length; index++)
        {
            int start = chance.Below(_days.Length);
            _starts[index] = start;
            sum += _sumOfShares[start + _block] - _sumOfShares[start];
        }

        _believed = sum / (_starts.Length * _block);
    }

    /// <summary>Draws the place of a block among the days.</summary>
    public int Start(ChanceStream chance) => _doubts ? _starts[chance.Below(_starts.Length)] : chance.Below(_days.Length);

    /// <summary>The day at a place, which goes round once: a block begins among the days and is no longer than they are.</summary>
    public int DayAt(int place) => _round[place];

    /// <summary>Factor on the output of the days of a block.</summary>
    public double FactorOf(int start)
    {
        if (!_doubts) return 1;
        double block = (_sumOfShares[start + _block] - _sumOfShares[start]) / _block;
        double wanted = _mean + ((_believed - _mean) * _beliefSpread) + ((block - _believed) * _blockSpread);
        // A block without any output cannot be scaled; and weather never makes a barge work backwards.
        return block > 0 ? Math.Max(0, wanted) / block : 1;
    }

    /// <summary>Length of the blocks for a history: two and a half times its cube root (Hall, Horowitz and Jing, 1995, give the cube root).</summary>
    public static int BlockFor(int historyDays) => Math.Clamp((int)Math.Round(2.5 * Math.Cbrt(historyDays)), 1, Math.Max(1, historyDays / 3));

    /// <summary>Correlation of a day's share with the next day's, from -0.2 to 0.85.</summary>
    private static double Correlation(int[] days, double[] shares)
    {
        int n = days.Length;
        if (n < 8) return 0.3; // Too few to tell; weather keeps together.
        double mean = days.Average(day => shares[day]);
        double square = days.Sum(day => (shares[day] - mean) * (shares[day] - mean));
        double product = 0;
        for (int index = 1; index < n; index++) product += (shares[days[index]] - mean) * (shares[days[index - 1]] - mean);
        double raw = square > 0 ? product / square : 0;
        return Math.Clamp(raw + ((1 + (3 * raw)) / n), -0.2, 0.85);
    }

    /// <summary>Whole variance of a long sum over the part that blocks of this length keep.</summary>
    private static double Cut(double correlation, int block)
    {
        double kept = 1;
        for (int lag = 1; lag < block; lag++) kept += 2 * (1 - ((double)lag / block)) * Math.Pow(correlation, lag);
        return (1 + correlation) / (1 - correlation) / kept;
    }
}
