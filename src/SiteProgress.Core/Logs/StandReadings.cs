namespace SiteProgress.Core.Logs;

/// <summary>Readings of the sand gauge while the casing stood, without a break between them.</summary>
/// <param name="Stand">Place of the stand: twice that of its bottom, one more for the top after it; below zero before the base.</param>
/// <param name="First">First sample.</param>
/// <param name="Last">Last sample.</param>
/// <param name="LeftAtFirst">Sand left by the first readings, metres of casing.</param>
/// <param name="LeftAtLast">Sand left by the last readings.</param>
/// <param name="Count">Readings in each of both means.</param>
/// <param name="SpreadMetres">What the height is not known to beyond the noise, as a standard deviation.</param>
internal readonly record struct StandReading(int Stand, int First, int Last, double LeftAtFirst, double LeftAtLast, int Count, double SpreadMetres = 0)
{
    /// <summary>A stand at which nothing is known of the sand.</summary>
    public static StandReading Unknown(int stand, int index) => new(stand, index, index, 0, 0, 1, double.PositiveInfinity);
}

/// <summary>
/// What the sand gauge read at each stand of the casing. There a gauge that follows late has caught up, or what it lacks is known,
/// and between two stands lie whole withdrawals and re-drives, so that accounts from one to another need no share of a stroke.
/// </summary>
internal sealed class StandReadings(CleanLog log, SandBalance balance, Building building, Func<int, bool> isSeen)
{
    /// <summary>Readings taken together.</summary>
    private const int Around = 4;

    /// <summary>Fewest of them.</summary>
    private const int Fewest = 2;

    /// <summary>Seconds after the end of a withdrawal in which a gauge that follows a little late catches up.</summary>
    private const double SettleSeconds = 5;

    /// <summary>Readings farther apart belong to different times, seconds.</summary>
    private const double NearSeconds = 10;

    /// <summary>A gauge that changes by no more than its noise and this for so many seconds stands still, metres.</summary>
    private const double StillMetres = 0.04;

    private const double StillSeconds = 6;

    private readonly List<StandReading> _found = [];

    /// <summary>True for a reading near the upper end of the range: noise carries it to and fro across that end.</summary>
    public static bool IsNearEnd(CleanLog log, SandBalance balance, int index) => log.Sand[index] >= balance.Ends.High - DeadZones.Same - (3 * log.SandNoise);

    /// <summary>All of them, in order of time.</summary>
    public List<StandReading> Find()
    {
        _found.Add(BeforeBase());
        for (int place = 0; place < building.Bottoms.Count; place++)
        {
            TurningPoint bottom = building.Turns[building.Bottoms[place]];
            Collect(2 * place, bottom.From, bottom.To, null);
            if (place + 1 == building.Bottoms.Count || building.TopAfter(place) is not { } top) break;
            int settled = log.IndexAt(log.Seconds[top.From] + SettleSeconds);
            Collect((2 * place) + 1, settled, Math.Max(top.To, log.IndexAt(log.Seconds[settled] + SettleSeconds)), top);
        }

        int end = 2 * (building.Bottoms.Count - 1);
        if (_found[^1].Stand < end) _found.Add(AtLowEnd(end, building.LastBottom.Index) ?? StandReading.Unknown(end, building.LastBottom.Index));
        return _found;
    }

    /// <summary>A sample at which the gauge stood at the low end of its range: the sand is lower than that; null where it did not.</summary>
    private StandReading? AtLowEnd(int stand, int index)
        => (log.Flags[index] & SandFlag.Clamped) != 0 && log.Sand[index] <= balance.Ends.Low + DeadZones.Same
            ? new StandReading(stand, index, index, balance.Left[index], balance.Left[index], 1, balance.Ends.Low / Math.Sqrt(12))
            : null;

    private void Collect(int stand, int from, int to, TurningPoint? top)
    {
        int begin = -1, last = -1;
        for (int index = from; index <= to; index++)
        {
            if (!IsUsable(index)) continue;
            if (begin >= 0 && log.Seconds[index] - log.Seconds[last] > NearSeconds)
            {
                Add(stand, begin, last, top);
                begin = -1;
            }

            if (begin < 0) begin = index;
            last = index;
        }

        if (begin >= 0) Add(stand, begin, last, top);
    }

    private void Add(int stand, int first, int last, TurningPoint? top)
    {
        (double before, int count) = Mean(first, last, 1, top);
        if (count >= Fewest) _found.Add(new StandReading(stand, first, last, before, Mean(last, first, -1, top).Left, count));
    }

    /// <summary>
    /// The last readings before the base is reached, when no sand leaves. Where nothing was read before it but the low end of
    /// the gauge's range, the begin of the log: the casing is then empty as far as the gauge can tell.
    /// </summary>
    private StandReading BeforeBase()
    {
        int last = building.Base.From - 1;
        while (last >= 0 && !IsUsable(last)) last--;
        if (last < 0) return AtLowEnd(-1, 0) ?? StandReading.Unknown(-1, 0);
        (double left, int count) = Mean(last, Math.Max(0, log.IndexAt(log.Seconds[last] - NearSeconds)), -1, null);
        return count < Fewest ? StandReading.Unknown(-1, last) : new StandReading(-1, last, last, left, left, count);
    }

    private (double Left, int Count) Mean(int from, int to, int step, TurningPoint? top)
    {
        double left = 0;
        int count = 0;
        for (int index = from; index != to + step && count < Around; index += step)
        {
            if (!IsUsable(index)) continue;
            left += balance.Left[index] + (top is { } turned ? Late(turned, index) : 0);
            count++;
        }

        return (left / Math.Max(1, count), count);
    }

    /// <summary>
    /// True for a good reading, and for one around a charge where the gauge stood still for a while with the casing: the sand has
    /// fallen in and the gauge has caught up, whatever moment was logged.
    /// </summary>
    private bool IsUsable(int index)
    {
        if (isSeen(index)) return true;
        if (log.Flags[index] != SandFlag.Pouring || IsNearEnd(log, balance, index)) return false;
        int before = log.IndexAt(log.Seconds[index] - StillSeconds);
        if (log.Seconds[index] - log.Seconds[before] > 2 * StillSeconds || IsCharged(index)) return false;
        double play = StillMetres + (3 * log.SandNoise);
        for (int earlier = before; earlier < index; earlier++)
        {
            if (log.Flags[earlier] is not (SandFlag.Good or SandFlag.Pouring) || Math.Abs(log.Sand[index] - log.Sand[earlier]) > play || Math.Abs(log.Tip[index] - log.Tip[earlier]) > play) return false;
        }

        return index > before;
    }

    /// <summary>True where a charge was logged so near that it cannot be told whether the reading holds it.</summary>
    private bool IsCharged(int index)
    {
        foreach (Charge charge in balance.Charges)
        {
            if (Math.Abs(log.Seconds[charge.Index] - log.Seconds[index]) < StillSeconds) return true;
        }

        return false;
    }

    /// <summary>What a late gauge does not show yet of a withdrawal that has ended, metres, if its sand left freely.</summary>
    private double Late(TurningPoint top, int index)
    {
        if (balance.LagSeconds <= 0) return 0;
        int end = Math.Min(index, top.To);
        double lacking = top.LevelMetres - (balance.Left[end] + balance.Rest[end]);
        return Math.Max(0, lacking) * Math.Exp((log.Seconds[end] - log.Seconds[index]) / balance.LagSeconds);
    }
}
