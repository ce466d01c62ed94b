using System.Buffers;

namespace SiteProgress.Core.Logs;

/// <summary>
/// The sand account of a log: at every sample the sand that has left the casing since the beginning, in metres of casing, and
/// the sand level in the casing less what was charged. Both are as the gauge sees them: a gauge that follows late is met
/// by letting tip and charges pass through the same lag. Where the gauge stands at an end of its range or was not read,
/// the height is reckoned from tip and charges: sand stays where it is while the casing rises.
/// </summary>
internal sealed class SandBalance : IDisposable
{
    private readonly CleanLog _log;
    private readonly LogConstants _constants;

    private SandBalance(CleanLog log, LogConstants constants)
    {
        (_log, _constants) = (log, constants);
        Left = ArrayPool<double>.Shared.Rent(log.Count);
        Rest = ArrayPool<double>.Shared.Rent(log.Count);
    }

    /// <summary>Sand left since the first sample, metres of casing.</summary>
    public double[] Left { get; }

    /// <summary>Level of the sand in the casing less all charges, metres: constant while sand leaves freely, rising in a hang-up.</summary>
    public double[] Rest { get; }

    public IReadOnlyList<Charge> Charges { get; private set; } = [];

    public bool ChargesRecorded { get; private set; }

    /// <summary>Inner area of the casing, square metres.</summary>
    public double CasingArea { get; private set; }

    /// <summary>Lag of the gauge, seconds.</summary>
    public double LagSeconds { get; private set; }

    /// <summary>Ends of the gauge's range at which it stood; NaN where it never did.</summary>
    public (double Low, double High) Ends { get; private set; } = (double.NaN, double.NaN);

    public static SandBalance Of(PileLog raw, CleanLog log, List<TurningPoint> turns, LogContext context)
    {
        SandBalance balance = new(log, context.Constants);
        balance.ChargesRecorded = raw.Has(LogChannel.Charge);
        balance.CasingArea = context.CasingArea;
        List<Charge> recorded = balance.ChargesRecorded ? Recorded(raw.Of(LogChannel.Charge)) : [];
        balance.Ends = DeadZones.Mark(log, recorded);
        StuckGauge.Mark(log, context.Constants);
        balance.Charges = balance.ChargesRecorded ? recorded : ChargesByGauge.Find(log, context);
        balance.MarkPouring();
        balance.LagSeconds = GaugeLag.Estimate(log, turns, balance.Charges, context.Constants);
        balance.Run(context.CasingArea, raw.Of(LogChannel.Valve));
        return balance;
    }

    public void Dispose()
    {
        ArrayPool<double>.Shared.Return(Left);
        ArrayPool<double>.Shared.Return(Rest);
    }

    /// <summary>Sand left at a stand of the casing, metres of casing, with its standard deviation.</summary>
    public (double Metres, double SpreadMetres) At(TurningPoint stand)
    {
        const double ShortestSeconds = 3;
        double[] seconds = _log.Seconds;
        int from = stand.From, to = stand.To;
        while (seconds[to] - seconds[from] < 2 * ShortestSeconds && (from > 0 || to < _log.Count - 1))
        {
            if (from > 0) from--;
            if (to < _log.Count - 1) to++;
        }

        return Mean(from, to);
    }

    /// <summary>Sand left at the end of the log.</summary>
    public (double Metres, double SpreadMetres) AtEnd()
    {
        const double LastSeconds = 8;
        int from = _log.IndexAt(_log.Seconds[_log.Count - 1] - LastSeconds);
        return Mean(from, _log.Count - 1);
    }

    private (double Metres, double SpreadMetres) Mean(int from, int to)
    {
        double good = 0, all = 0;
        int goodCount = 0;
        bool reckoned = false;
        for (int index = from; index <= to; index++)
        {
            all += Left[index];
            if (_log.Flags[index] == SandFlag.Good)
            {
                good += Left[index];
                goodCount++;
            }
            else if ((_log.Flags[index] & (SandFlag.Missing | SandFlag.Clamped)) != 0)
            {
                reckoned = true;
            }
        }

        // A gauge that answers at once and without memory errs by its noise and little beyond it.
        double standing = _constants.SandFloorMetres * (LagSeconds > 0 || _log.SandIsSmooth ? 1 : _constants.PromptFloorRatio);
        double floor = standing * standing;
        if (goodCount > 0)
        {
            double own = _log.SandSpread(goodCount);
            return (good / goodCount, Math.Sqrt((own * own) + floor));
        }

        double spread = reckoned ? _constants.ReckonedSandMetres : _log.SandNoise;
        return (all / (to - from + 1), Math.Sqrt((spread * spread) + floor));
    }

    private static List<Charge> Recorded(ReadOnlySpan<double> charges)
    {
        List<Charge> found = [];
        for (int index = 0; index < charges.Length; index++)
        {
            if (charges[index] > 0) found.Add(new Charge(index, charges[index]));
        }

        return found;
    }

    private void MarkPouring()
    {
        foreach (Charge charge in Charges)
        {
            double at = _log.Seconds[charge.Index];
            int to = _log.IndexAt(at + _constants.PourAfterSeconds);
            for (int index = BeginOfPour(_log.IndexAt(at - _constants.PourBeforeSeconds), at); index < to; index++) _log.Flags[index] |= SandFlag.Pouring;
        }
    }

    /// <summary>A slow pour begins before the usual time: as long as the gauge rises fast toward it, it belongs to it.</summary>
    private int BeginOfPour(int from, double at)
    {
        const double LongestSeconds = 60, StepSeconds = 4, LeastRiseMetres = 0.2;
        if (!_log.HasSand) return from;
        int step = Math.Max(1, (int)Math.Round(StepSeconds / _log.SpacingSeconds));
        while (from >= step && at - _log.Seconds[from - step] < LongestSeconds
            && _log.Sand[from] - _log.Sand[from - step] > LeastRiseMetres + (3 * _log.SandNoise) + Math.Max(0, _log.Tip[from - step] - _log.Tip[from]))
        {
            from -= step;
        }

        return from;
    }

    private void Run(double casingArea, ReadOnlySpan<double> valve)
    {
        double[] tip = _log.Tip, sand = _log.Sand, seconds = _log.Seconds;
        int next = 0, missingFrom = -1;

        // Noise of the tip must not add up to a rise: the tip drags a mark behind it with this much play.
        double play = 0.02 + (3 * _log.TipNoise), played = tip[0];
        double charged = 0, chargedSeen = 0, tipSeen = tip[0], settled = (_log.Flags[0] & SandFlag.Clamped) != 0 && sand[0] <= Ends.Low + DeadZones.Same ? 0 : sand[0], share = 1, stepBefore = double.NaN;
        for (int index = 0; index < _log.Count; index++)
        {
            while (next < Charges.Count && Charges[next].Index <= index) charged += Charges[next++].CubicMetres / casingArea;
            double step = index == 0 ? 0 : seconds[index] - seconds[index - 1];
            if (step != stepBefore && LagSeconds > 0) (share, stepBefore) = (index == 0 ? 1 : 1 - Math.Exp(-step / LagSeconds), step);
            double poured = share * (charged - chargedSeen), rose = share * (tip[index] - tipSeen);
            (chargedSeen, tipSeen) = (chargedSeen + poured, tipSeen + rose);
            SandFlag flag = _log.Flags[index];
            double height = sand[index];

            // While sand is falling in, the gauge may be ahead of the recorded charge: reckoning goes on from before it.
            double risen = Math.Max(0, tipSeen - play - played);
            played = Math.Clamp(played, tipSeen - play, tipSeen + play);
            settled += poured - (valve.Length > 0 && valve[index] < 0.5 ? 0 : risen);
            if ((flag & SandFlag.Clamped) != 0)
            {
                missingFrom = -1;
                height = WithinDeadZone(settled, height);
                if ((flag & SandFlag.Pouring) == 0) settled = height;
            }
            else if ((flag & SandFlag.Missing) != 0)
            {
                if (missingFrom < 0) missingFrom = index;
                height = settled;
            }
            else
            {
                if (missingFrom >= 0) Close(missingFrom, index, height - settled);
                missingFrom = -1;
                if (flag == SandFlag.Good) settled = height;
            }

            Left[index] = chargedSeen - height;
            Rest[index] = tipSeen - Left[index];
        }
    }

    private double WithinDeadZone(double reckoned, double reading)
        => reading <= Ends.Low + DeadZones.Same ? Math.Clamp(reckoned, 0, Ends.Low) : Math.Max(reckoned, Ends.High);

    /// <summary>Shares out, over samples that were not read, what the reckoning missed.</summary>
    private void Close(int from, int to, double missed)
    {
        for (int index = from; index < to; index++)
        {
            double part = missed * (index - from + 1) / (to - from + 1);
            Left[index] -= part;
            Rest[index] += part;
        }
    }
}
