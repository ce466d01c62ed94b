using System.Buffers;

namespace SiteProgress.Core.Logs;

/// <summary>What became of a sand reading.</summary>
[Flags]
internal enum SandFlag : byte
{
    Good = 0,

    /// <summary>It was not read.</summary>
    Missing = 1,

    /// <summary>The gauge stood at an end of its range.</summary>
    Clamped = 2,

    /// <summary>A charge may just be falling in: recorded and true moment differ.</summary>
    Pouring = 4,
}

/// <summary>Sand filled in.</summary>
/// <param name="Index">Sample at which it was recorded.</param>
/// <param name="CubicMetres">Loose volume.</param>
internal readonly record struct Charge(int Index, double CubicMetres);

/// <summary>
/// A log with its clock mended, its tip as a level, its sand as a height above the tip, spikes taken out. Arrays are rented;
/// dispose gives them back.
/// </summary>
internal sealed class CleanLog : IDisposable
{
    private bool _tipSmooth, _sandSmooth;

    private CleanLog(int count)
    {
        Count = count;
        Seconds = ArrayPool<double>.Shared.Rent(count);
        Tip = ArrayPool<double>.Shared.Rent(count);
        Sand = ArrayPool<double>.Shared.Rent(count);
        Flags = ArrayPool<SandFlag>.Shared.Rent(count);
        Array.Clear(Flags, 0, count);
    }

    public int Count { get; }

    /// <summary>Seconds after the first sample, always rising.</summary>
    public double[] Seconds { get; }

    /// <summary>Level of the tip, metres.</summary>
    public double[] Tip { get; }

    /// <summary>Height of the sand above the tip, metres; NaN where it was not read.</summary>
    public double[] Sand { get; }

    public SandFlag[] Flags { get; }

    public bool HasSand { get; private set; }

    public double SpacingSeconds { get; private set; }

    /// <summary>Standard deviation of the tip's noise, metres.</summary>
    public double TipNoise { get; private set; }

    /// <summary>Standard deviation of the sand's noise, metres.</summary>
    public double SandNoise { get; private set; }

    /// <summary>True where neighbouring readings of the sand are not independent.</summary>
    public bool SandIsSmooth => _sandSmooth;

    /// <summary>The same of the tip.</summary>
    public bool TipIsSmooth => _tipSmooth;

    /// <summary>Standard deviation of a mean of the tip over so many samples.</summary>
    public double TipSpread(int samples) => Spread(TipNoise, _tipSmooth, samples);

    /// <summary>The same of the sand height.</summary>
    public double SandSpread(int samples) => Spread(SandNoise, _sandSmooth, samples);

    /// <summary>Neighbouring samples of a swell are not independent: one in so many seconds counts.</summary>
    private double Spread(double noise, bool smooth, int samples)
    {
        const double SwellSeconds = 5;
        double counting = smooth ? samples * SpacingSeconds / SwellSeconds : samples;
        return noise / Math.Sqrt(Math.Max(1, counting));
    }

    public List<LogEvent> Events { get; } = [];

    public static CleanLog Of(PileLog log, LogContext context)
    {
        CleanLog clean = new(log.Count);
        clean.MendClock(log, context.Constants);
        clean.TakeTip(log, context.Constants);
        clean.TakeSand(log, context);
        return clean;
    }

    public void Dispose()
    {
        ArrayPool<double>.Shared.Return(Seconds);
        ArrayPool<double>.Shared.Return(Tip);
        ArrayPool<double>.Shared.Return(Sand);
        ArrayPool<SandFlag>.Shared.Return(Flags);
    }

    /// <summary>First sample at or after a moment.</summary>
    public int IndexAt(double seconds)
    {
        int found = Array.BinarySearch(Seconds, 0, Count, seconds);
        return Math.Clamp(found < 0 ? ~found : found, 0, Count - 1);
    }

    private void MendClock(PileLog log, LogConstants constants)
    {
        ReadOnlySpan<double> clock = log.Seconds.Span;
        SpacingSeconds = Spacing(clock);
        double gap = Math.Max(constants.GapSeconds, 6 * SpacingSeconds);
        double offset = 0;
        if (Count > 0) Seconds[0] = clock[0];
        for (int index = 1; index < Count; index++)
        {
            double step = clock[index] - clock[index - 1];
            if (step <= 0 || double.IsNaN(step))
            {
                offset += SpacingSeconds - step;
                Say(LogEventKind.ClockJump, log, index, step, $"The clock went back by {-step:0.0} s; the samples are taken as {SpacingSeconds:0.0} s apart.");
            }
            else if (step > gap)
            {
                offset += Leap(log, index, step);
            }

            Seconds[index] = clock[index] + offset;
        }
    }

    /// <summary>A leap of the clock without a movement that fits is a wrong clock; else samples are missing.</summary>
    private double Leap(PileLog log, int index, double step)
    {
        ReadOnlySpan<double> tip = log.Of(LogChannel.Tip);
        ReadOnlySpan<double> clock = log.Seconds.Span;
        const int Around = 4;
        if (index > Around && index + Around < Count)
        {
            double before = (tip[index - 1] - tip[index - 1 - Around]) / (clock[index - 1] - clock[index - 1 - Around]);
            double after = (tip[index + Around] - tip[index]) / (clock[index + Around] - clock[index]);
            bool went = Math.Abs(before) > 0.015 && Math.Abs(after) > 0.015 && before * after > 0;
            if (went && Math.Abs(tip[index] - tip[index - 1]) < 0.2 * Math.Abs(before) * step)
            {
                Say(LogEventKind.ClockJump, log, index, step, $"The clock leapt by {step:0.0} s while the casing went on as if no time had passed; the leap is taken out.");
                return SpacingSeconds - step;
            }
        }

        Say(LogEventKind.RecordGap, log, index, step, $"No samples for {step:0} s.");
        return 0;
    }

    private void Say(LogEventKind kind, PileLog log, int index, double step, FormattableString note)
    {
        double at = Seconds[index - 1];
        ReadOnlySpan<double> tip = log.Of(LogChannel.Tip);
        bool level = log.TipMeasure == TipMeasure.Level;
        Events.Add(new LogEvent(
            kind, at, at + Math.Max(step, 0), level ? tip[index - 1] : double.NaN, level ? tip[index] : double.NaN, null, false,
            FormattableString.Invariant(note)));
    }

    private static double Spacing(ReadOnlySpan<double> clock)
    {
        const int Most = 63;
        Span<double> steps = stackalloc double[Most];
        int taken = 0;
        int stride = Math.Max(1, clock.Length / Most);
        for (int index = 1; index < clock.Length && taken < Most; index += stride)
        {
            double step = clock[index] - clock[index - 1];
            if (step > 0) steps[taken++] = step;
        }

        if (taken == 0) return 1;
        steps[..taken].Sort();
        return steps[taken / 2];
    }

    private void TakeTip(PileLog log, LogConstants constants)
    {
        log.Of(LogChannel.Tip).CopyTo(Tip);
        Span<double> tip = Tip.AsSpan(0, Count);
        Fill(tip, null);
        if (log.TipMeasure == TipMeasure.DepthBelowWater)
        {
            double[] water = log.Of(LogChannel.WaterLevel).ToArray();
            Fill(water, null);
            for (int index = 0; index < Count; index++) Tip[index] = (water.Length == 0 ? double.NaN : water[index]) - Tip[index];
        }

        TakeSpikesOut(tip, constants.SpikeMetres + (constants.FastestMetresPerSeconds * SpacingSeconds));
        (TipNoise, _tipSmooth) = Noise(tip);
    }

    private void TakeSand(PileLog log, LogContext context)
    {
        ReadOnlySpan<double> read = log.Of(LogChannel.Sand);
        HasSand = read.Length > 0 && (log.SandMeasure != SandMeasure.DistanceFromTop || context.CasingLengthMetres is not null);
        if (!HasSand) return;
        Span<double> sand = Sand.AsSpan(0, Count);
        read.CopyTo(sand);
        double length = context.CasingLengthMetres ?? 0;
        switch (log.SandMeasure)
        {
            case SandMeasure.DistanceFromTop:
                for (int index = 0; index < sand.Length; index++) sand[index] = length - sand[index];
                break;
            case SandMeasure.Level:
                for (int index = 0; index < sand.Length; index++) sand[index] -= Tip[index];
                break;
            default:
                for (int index = 0; index < sand.Length; index++) sand[index] -= context.GaugeZeroMetres;
                break;
        }

        HasSand = Fill(sand, Flags);
        if (!HasSand) return;
        TakeSpikesOut(sand, context.Constants.SpikeMetres + (context.Constants.FastestMetresPerSeconds * SpacingSeconds));
        (SandNoise, _sandSmooth) = Noise(sand);
    }

    /// <summary>Fills what was not read by a straight line; false when nothing was read.</summary>
    private static bool Fill(Span<double> values, SandFlag[]? flags)
    {
        int last = -1;
        for (int index = 0; index < values.Length; index++)
        {
            if (double.IsNaN(values[index])) continue;
            if (last < index - 1)
            {
                double from = last < 0 ? values[index] : values[last];
                for (int between = last + 1; between < index; between++)
                {
                    values[between] = from + ((values[index] - from) * (between - last) / (index - last));
                    if (flags is not null) flags[between] |= SandFlag.Missing;
                }
            }

            last = index;
        }

        if (last < 0) return false;
        for (int index = last + 1; index < values.Length; index++)
        {
            values[index] = values[last];
            if (flags is not null) flags[index] |= SandFlag.Missing;
        }

        return true;
    }

    /// <summary>Takes out up to three samples that leave their neighbours by more than the limit and come back.</summary>
    private static void TakeSpikesOut(Span<double> values, double limit)
    {
        for (int index = 1; index < values.Length - 1; index++)
        {
            double before = values[index - 1];
            if (Math.Abs(values[index] - before) <= limit) continue;
            for (int back = index + 1; back <= index + 3 && back < values.Length; back++)
            {
                if (Math.Abs(values[back] - before) > limit) continue;
                for (int spike = index; spike < back; spike++) values[spike] = before + ((values[back] - before) * (spike - index + 1) / (back - index + 1));
                break;
            }
        }
    }

    /// <summary>
    /// Noise from second differences between neighbours and over some seconds, the larger of both: swell and memory are
    /// smooth from sample to sample. 1.4826 times the median size is the standard deviation, sqrt(3/2) that of a sample.
    /// </summary>
    private (double Deviation, bool Smooth) Noise(ReadOnlySpan<double> values)
    {
        const double SmoothRatio = 1.4;
        const double SwellSeconds = 3.5;
        int over = (int)Math.Round(SwellSeconds / SpacingSeconds);
        double next = Noise(values, 1), far = over > 1 ? Noise(values, over) : 0;
        return (Math.Max(next, far), far > SmoothRatio * next);
    }

    private static double Noise(ReadOnlySpan<double> values, int over)
    {
        const int Most = 192;
        Span<double> differences = stackalloc double[Most];
        int taken = 0;
        int stride = Math.Max(1, values.Length / Most);
        for (int index = over; index < values.Length - over && taken < Most; index += stride)
            differences[taken++] = Math.Abs(values[index] - ((values[index - over] + values[index + over]) / 2));
        if (taken == 0) return 0;
        differences[..taken].Sort();

        // Coarse digits make most second differences of neighbours zero; their 75th percentile still sees them.
        double median = differences[taken / 2];
        double upper = over == 1 ? differences[3 * taken / 4] : 0;
        return Math.Sqrt(2.0 / 3) * Math.Max(1.4826 * median, 0.8693 * upper);
    }
}
