using NodaTime;
using SiteProgress.Core.Logs;
using SiteProgress.DemoGenerator;
using SiteProgress.DemoGenerator.Logs;

namespace SiteProgress.Bench.Logs;

/// <summary>Generated logs as the core reads them.</summary>
public static class LogMaker
{
    /// <summary>A log of a family under a seed, with its truth.</summary>
    public static MadeLog Make(string family, int seed)
    {
        var chance = ChanceSource.For(seed, "log study " + family);
        var design = MadeLog.AnyDesign(chance);
        return MadeLog.Make(design, LogGauges.Family(family, chance), chance);
    }

    /// <summary>The samples alone.</summary>
    public static PileLog Samples(MadeLog made) => new(
        Instant.FromUtc(2026, 4, 1, 6, 0), (TipMeasure)made.Gauges.TipMeasure, (SandMeasure)made.Gauges.SandMeasure, made.Seconds.ToArray(),
        new Dictionary<LogChannel, ReadOnlyMemory<double>>
        {
            [LogChannel.Tip] = made.Tip.ToArray(),
            [LogChannel.Sand] = made.Sand.ToArray(),
            [LogChannel.AirPressure] = made.Air.ToArray(),
            [LogChannel.HammerLoad] = made.Hammer.ToArray(),
            [LogChannel.InclinationX] = made.InclinationX.ToArray(),
            [LogChannel.InclinationY] = made.InclinationY.ToArray(),
            [LogChannel.Charge] = made.Charge.ToArray(),
            [LogChannel.Valve] = made.Valve.ToArray(),
            [LogChannel.WaterLevel] = made.Water.ToArray(),
        });

    /// <summary>What such a log is read against.</summary>
    public static LogContext Context(LogDesign design) => new(
        design.CasingInner, design.CasingLength, design.VolumeFactor, design.Diameter, design.DesignTop, design.DesignTop - 15, 0.5, LogConstants.Standard);
}
