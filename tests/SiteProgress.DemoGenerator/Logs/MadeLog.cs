namespace SiteProgress.DemoGenerator.Logs;

/// <summary>A log as a logger would write it, with its truth.</summary>
public sealed class MadeLog
{
    private MadeLog(LogDesign design, LogGauges gauges, LogCourse course) => (Design, Gauges, Course) = (design, gauges, course);

    public LogDesign Design { get; }

    public LogGauges Gauges { get; }

    public LogCourse Course { get; }

    public LogTruth Truth => Course.Truth;

    public List<double> Seconds { get; } = [];
    public List<double> Tip { get; } = [];
    public List<double> Sand { get; } = [];
    public List<double> Air { get; } = [];
    public List<double> Hammer { get; } = [];
    public List<double> InclinationX { get; } = [];
    public List<double> InclinationY { get; } = [];
    public List<double> Charge { get; } = [];
    public List<double> Valve { get; } = [];
    public List<double> Water { get; } = [];

    /// <summary>Makes a log.</summary>
    public static MadeLog Make(LogDesign design, LogGauges gauges, ChanceSource chance)
    {
        var made = new MadeLog(design, gauges, new LogCourse(design, chance));
        made.Sample(chance);
        made.DropSand(chance);
        return made;
    }

    /// <summary>A pile like those of the study: zone, depth, casing and traits by chance.</summary>
    public static LogDesign AnyDesign(ChanceSource chance)
    {
        var large = chance.Chance(0.7);
        var top = chance.Between(-14, -11);
        return new LogDesign
        {
            CasingInner = large ? 1.2 : 1.0,
            VolumeFactor = chance.Between(0.78, 0.9),
            Diameter = large ? (chance.Chance(0.5) ? 2.0 : 1.8) : 1.6,
            DesignTop = top,
            Tip = top - chance.Between(12, 19),
            Top = top + chance.Between(0, 0.2),
            Seabed = top + chance.Between(0.2, 0.6),
            Water = chance.Between(-1, 1.2),
            WaterRise = chance.Between(-0.3, 0.3),
            BaseStrokes = chance.Chance(0.4) ? chance.Whole(1, 2) : 0,
            HangUps = chance.Chance(0.2) ? [new PlannedHangUp(chance.Between(0.15, 0.85), chance.Between(0.5, 1.6))] : [],
            Repairs = chance.Chance(0.4),
            Thin = chance.Chance(0.1) ? (top - chance.Between(3, 10), chance.Between(0.1, 0.3)) : null,
        };
    }

    private void Sample(ChanceSource chance)
    {
        var pours = new Queue<(double Time, double Volume)>(Course.Charges.Select(pour =>
            (pour.Time + chance.Between(-4, 4), pour.Volume * chance.Normal(1, Gauges.ChargeNoise))).OrderBy(pour => pour.Item1));
        double end = Course.Knots[^1].Time, phase = chance.Between(0, 6), noise = 0, seen = double.NaN, before = 0;
        var knot = 0;
        for (var at = 0.0; at < end; at += Gauges.Spacing)
        {
            var time = Math.Round(Math.Max(at + (Gauges.SpacingJitter * (chance.Uniform() - 0.5)), before + (at > 0 ? 0.05 : 0)), 2);
            if (time >= end) break;
            var (tip, height) = At(time, ref knot);
            seen = double.IsNaN(seen) || Gauges.Lag <= 0 ? height : Lagged(seen, before, time);
            var memory = Math.Pow(Gauges.SandMemory, Gauges.Spacing);
            noise = (memory * noise) + chance.Normal(0, Gauges.SandNoise * Math.Sqrt(1 - (memory * memory)));
            var water = Design.Water + (Design.WaterRise * time / 3600);
            var loggedTip = Rounded(tip + chance.Normal(0, Gauges.TipNoise) + (Gauges.SwellTip * Math.Sin((2 * Math.PI * time / Gauges.SwellPeriod) + phase)), Gauges.TipQuantum);
            var loggedHeight = seen + noise + (Gauges.SandDrift * time / end);
            if (chance.Chance(Gauges.SpikeShare)) loggedHeight += chance.Between(2, 8) * (chance.Chance(0.5) ? 1 : -1);
            if (chance.Chance(Gauges.SpikeShare / 2)) loggedTip = Rounded(loggedTip + chance.Between(2, 8), Gauges.TipQuantum);
            loggedHeight = Math.Clamp(Rounded(loggedHeight, Gauges.SandQuantum), Gauges.Low, Gauges.High);
            Seconds.Add(time);
            var loggedWater = Math.Round(water, 2);
            Tip.Add(Gauges.TipMeasure == 1 ? loggedTip : Math.Round(loggedWater - loggedTip, 2));
            Sand.Add(Math.Round(Gauges.SandMeasure switch { 1 => loggedHeight, 2 => Design.CasingLength - loggedHeight, _ => loggedTip + loggedHeight }, 2));
            Water.Add(loggedWater);
            Others(time, tip, water, chance);
            double poured = 0;
            while (pours.Count > 0 && pours.Peek().Time <= time) poured += pours.Dequeue().Volume;
            Charge.Add(Math.Round(poured, 2));
            before = time;
        }

        if (pours.Count > 0) throw new InvalidOperationException("A charge fell behind the last sample.");
    }

    /// <summary>First-order lag in steps of a quarter second.</summary>
    private double Lagged(double seen, double from, double to)
    {
        var steps = Math.Max(1, (int)Math.Ceiling((to - from) / 0.25));
        var knot = 0;
        for (var step = 1; step <= steps; step++)
        {
            var (_, height) = At(from + ((to - from) * step / steps), ref knot);
            seen += (height - seen) * (1 - Math.Exp(-(to - from) / steps / Gauges.Lag));
        }

        return seen;
    }

    private (double Tip, double Height) At(double time, ref int knot)
    {
        var knots = Course.Knots;
        if (knot == 0 && time > knots[1].Time) knot = Math.Max(0, knots.BinarySearch((time, double.MinValue, 0)) is var found && found < 0 ? ~found - 1 : found);
        while (knot + 2 < knots.Count && knots[knot + 1].Time < time) knot++;
        var (a, b) = (knots[knot], knots[knot + 1]);
        var share = b.Time > a.Time ? Math.Clamp((time - a.Time) / (b.Time - a.Time), 0, 1) : 1;
        return (a.Tip + ((b.Tip - a.Tip) * share), a.Height + ((b.Height - a.Height) * share));
    }

    private void Others(double time, double tip, double water, ChanceSource chance)
    {
        var outside = 10.055 * (water - tip);
        var open = time >= Course.ValveOpen.From && time < Course.ValveOpen.To;
        var building = open && !Design.AirFails;
        Air.Add(Math.Round(Math.Max(0, (building ? outside + 55 : open ? outside - 40 : 30) + chance.Normal(0, 4))));
        Hammer.Add(Math.Round(Math.Max(0, (time < Course.EndOfPenetration ? 260 : 180) + chance.Normal(0, 15))));
        InclinationX.Add(Math.Round((Design.Inclination * 0.8) + chance.Normal(0, 0.05), 2));
        InclinationY.Add(Math.Round((Design.Inclination * 0.6) + chance.Normal(0, 0.05), 2));
        Valve.Add(open && !(Design.ValveStaysClosed && time < Course.ValveOpen.From + 60) ? 1 : 0);
    }

    private void DropSand(ChanceSource chance)
    {
        for (var drop = 0; drop < Gauges.DropOuts; drop++)
        {
            var from = chance.Whole(10, Seconds.Count - 40);
            var until = Seconds[from] + chance.Between(4, Gauges.LongestDropOut);
            for (var index = from; index < Seconds.Count && Seconds[index] < until; index++) Sand[index] = double.NaN;
        }
    }

    private static double Rounded(double value, double quantum) => Math.Round(Math.Round(value / quantum) * quantum, 3);
}
