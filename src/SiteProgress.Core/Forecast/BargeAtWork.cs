namespace SiteProgress.Core.Forecast;

/// <summary>A barge while runs are played: what is so in every run, and where it stands in the one being played.</summary>
internal sealed class BargeAtWork(HistoryPool pool, FutureDays future, int barge, int daysBefore, int rampDays)
{
    private readonly int[] _output = pool.Output[barge];
    private readonly int[] _own = pool.Own[barge];
    private readonly bool[] _present = future.Present[barge];
    private readonly int[] _order = future.ZoneOrder[barge];
    private readonly double _rampFactor = pool.IsNew[barge] ? pool.RampRatio : 1;

    private int _front;
    private int _daysThere;
    private int _ownAt;
    private int _ownBlock;

    /// <summary>What it has done of the next set-up, below 1.</summary>
    public double Carried { get; private set; }

    /// <summary>Factor on its output once its ramp-up is over.</summary>
    public double SteadyFactor { get; } = pool.IsNew[barge] ? 1 : pool.LaterFactor[barge];

    /// <summary>True once its factor changes no more.</summary>
    public bool IsSteady => _daysThere >= rampDays || _rampFactor == SteadyFactor;

    /// <summary>Puts the barge to where every run begins.</summary>
    public void Begin() => (Carried, _front, _ownBlock, _daysThere) = (0, 0, 0, daysBefore);

    /// <summary>True where the barge is there and may work.</summary>
    public bool IsThere(int ahead) => _present[ahead];

    /// <summary>The first zone of its order that is not done; the last where all are.</summary>
    public int FrontZone(int[] left)
    {
        while (_front < _order.Length - 1 && left[_order[_front]] == 0) _front++;
        return _order[_front];
    }

    /// <summary>The zones from the first that is not done, in its order.</summary>
    public ReadOnlySpan<int> ZonesLeft(int[] left)
    {
        FrontZone(left);
        return _order.AsSpan(_front);
    }

    /// <summary>Set-ups on one day.</summary>
    /// <param name="drawn">The drawn day of the history.</param>
    /// <param name="block">Number of the block it lies in.</param>
    /// <param name="blockFactor">Factor on its output.</param>
    /// <param name="chance">Where a day of the barge's own has to be drawn.</param>
    public int On(int drawn, int block, double blockFactor, ChanceStream chance)
    {
        int output = _output[drawn];
        if (output == HistoryPool.NotThere && !Own(block, chance, out output)) return 0;
        double factor = blockFactor * (_daysThere < rampDays ? _rampFactor : SteadyFactor);
        return Settle(output * factor, 1);
    }

    /// <summary>Whole set-ups of so many days' output; the rest is carried on.</summary>
    public int Settle(double output, int days)
    {
        _daysThere += days;
        double sum = Carried + output;
        int whole = (int)sum;
        Carried = sum - whole;
        return whole;
    }

    /// <summary>A day of the barge's own where the drawn one has nothing of it: within a block, days that follow each other.</summary>
    private bool Own(int block, ChanceStream chance, out int output)
    {
        output = 0;
        if (_own.Length == 0) return false;
        (_ownAt, _ownBlock) = (_ownBlock != block ? chance.Below(_own.Length) : (_ownAt + 1) % _own.Length, block);
        output = _own[_ownAt];
        return true;
    }
}
