namespace SiteProgress.Core.Forecast;

/// <summary>What each barge did on the days of every block that can be drawn, added up once for all runs.</summary>
internal sealed class BlockOutputs
{
    private readonly int _barges;
    private readonly int[] _sums;

    /// <summary>Adds up the blocks of a belief's days.</summary>
    public BlockOutputs(Belief belief, HistoryPool pool)
    {
        _barges = pool.Output.Length;
        _sums = new int[belief.Places * _barges];
        for (int start = 0; start < belief.Places; start++)
        {
            for (int barge = 0; barge < _barges; barge++) _sums[(start * _barges) + barge] = Sum(belief, pool.Output[barge], start);
        }
    }

    /// <summary>Set-ups of each barge in the block that begins at a place; -1 where one of its days has nothing of the barge.</summary>
    public ReadOnlySpan<int> From(int start) => _sums.AsSpan(start * _barges, _barges);

    private static int Sum(Belief belief, int[] output, int start)
    {
        int sum = 0;
        for (int step = 0; step < belief.Block; step++)
        {
            int ofDay = output[belief.DayAt(start + step)];
            if (ofDay == HistoryPool.NotThere) return -1;
            sum += ofDay;
        }

        return sum;
    }
}
