using System.Reflection;

namespace SiteProgress.Core.Logs;

/// <summary>
/// Every number by which a log is read, in one place. A zone or a barge may set any of them by its name; what it does not set
/// holds as written here. No published standard gives these numbers; where no source is named it is common practice, chosen
/// on generated logs other than those the study reports.
/// </summary>
public sealed record LogConstants
{
    /// <summary>The numbers as written here.</summary>
    public static LogConstants Standard { get; } = new();

    /// <summary>Smallest stroke that counts as a withdrawal or a re-drive, metres. Common practice, no source: strokes are 1 to 4 m.</summary>
    public double SmallestStrokeMetres { get; init; } = 0.45;

    /// <summary>A stroke must also be this many times the noise of the tip. Common practice, no source.</summary>
    public double StrokeToNoiseRatio { get; init; } = 7;

    /// <summary>Bottoms within this distance of the deepest belong to the base, metres. Common practice, no source.</summary>
    public double BaseBandMetres { get; init; } = 0.5;

    /// <summary>A re-drive this far below the bottom before it is a new pass, which replaces what it re-penetrates, metres. Common practice, no source.</summary>
    public double NewPassMetres { get; init; } = 0.35;

    /// <summary>A cycle that rises less than this is a stroke on the spot, whose sand counts with the next rising one, metres. Common practice, no source.</summary>
    public double SmallestRiseMetres { get; init; } = 0.2;

    /// <summary>A value that leaves its neighbours by more than this and comes back is a spike, metres. Common practice, no source.</summary>
    public double SpikeMetres { get; init; } = 0.4;

    /// <summary>Fastest the casing moves, metres a second; a spike must be farther than this allows. Common practice, no source.</summary>
    public double FastestMetresPerSeconds { get; init; } = 0.25;

    /// <summary>Samples farther apart than this are a gap in the record, seconds. Common practice, no source.</summary>
    public double GapSeconds { get; init; } = 20;

    /// <summary>A casing rise of this length in which the sand does not leave is a hang-up, metres. Those of 0.5 m and more are to be found; set on generated logs, common practice, no source.</summary>
    public double HangUpMetres { get; init; } = 0.38;

    /// <summary>Hang-ups longer than this behind a stretch in which the gauge saw nothing are told, or said not to be excluded, metres. Common practice, no source.</summary>
    public double HangUpToFindMetres { get; init; } = 0.5;

    /// <summary>What a re-drive pushes back into the casing where the gauge saw none, metres. Set on generated logs; common practice, no source.</summary>
    public double PushedBackMetres { get; init; } = 0.15;

    /// <summary>Spread of what a re-drive pushes back, metres, as a standard deviation. Set on generated logs; common practice, no source.</summary>
    public double PushedBackSpreadMetres { get; init; } = 0.09;

    /// <summary>Sand that stayed where the gauge saw nothing is a hang-up when it is this many times its standard deviation. Set on generated logs; common practice, no source.</summary>
    public double HangUpSpreadRatio { get; init; } = 4;

    /// <summary>A hang-up is excluded where the sand that stayed lies so many standard deviations below the shortest that is to be found. Set on generated logs; common practice, no source.</summary>
    public double ExcludedSpreadRatio { get; init; } = 2;

    /// <summary>Seconds before the logged moment of a charge in which its sand may already fall. Common practice, no source.</summary>
    public double PourBeforeSeconds { get; init; } = 15;

    /// <summary>Seconds after the logged moment of a charge until its sand is in the casing. Common practice, no source.</summary>
    public double PourAfterSeconds { get; init; } = 25;

    /// <summary>Least sand cover above the tip during withdrawal, metres. Common practice, no source.</summary>
    public double LeastCoverMetres { get; init; } = 1;

    /// <summary>Seconds for which cover or air pressure must be too low before it is named. Common practice, no source.</summary>
    public double LeastEventSeconds { get; init; } = 10;

    /// <summary>Weight of sea water, kilonewtons per cubic metre: 1025 kg/m3 (standard ocean water at the surface, rounded) times 9.81 m/s2.</summary>
    public double WaterWeightFactor { get; init; } = 10.055;

    /// <summary>How far the air pressure may stay below the outside water pressure at the tip, kilopascals. Common practice, no source.</summary>
    public double AirPressureShortFactor { get; init; } = 5;

    /// <summary>Rise of the sand above the tip during penetration, without a charge, that shows soil in the casing, metres. Common practice, no source.</summary>
    public double SoilPlugMetres { get; init; } = 0.8;

    /// <summary>Rise of the casing with the valve closed that is named, metres. Common practice, no source.</summary>
    public double ValveClosedMetres { get; init; } = 0.5;

    /// <summary>A withdrawal longer than this many times the pile's own median, below the top, lacks its re-drive. Common practice, no source.</summary>
    public double RedriveMissingRatio { get; init; } = 1.7;

    /// <summary>How far below the design tip penetration may go before it is named, metres. Common practice, no source.</summary>
    public double OverPenetrationMetres { get; init; } = 1;

    /// <summary>How far above the design tip a stop is a refusal, metres. Common practice, no source.</summary>
    public double RefusalMetres { get; init; } = 0.3;

    /// <summary>Penetration rate at the stop below which the ground refused, metres a minute. Common practice, no source.</summary>
    public double RefusalMetresPerMinute { get; init; } = 0.5;

    /// <summary>Last metres of penetration over which the rate at the stop is taken. Common practice, no source.</summary>
    public double StopRateMetres { get; init; } = 0.5;

    /// <summary>How far above the design top the pull-out may begin before it is named, metres. Common practice, no source.</summary>
    public double PullOutAboveTopMetres { get; init; } = 0.5;

    /// <summary>Movement of the tip during which an unchanging sand gauge is stuck, metres. Common practice, no source.</summary>
    public double StuckMetres { get; init; } = 1.5;

    /// <summary>Longest lag of a sand gauge that is looked for, seconds. Common practice, no source.</summary>
    public double LargestLagSeconds { get; init; } = 24;

    /// <summary>Lag of the sand gauge that is named, seconds. Common practice, no source.</summary>
    public double NamedLagSeconds { get; init; } = 4;

    /// <summary>Standing spread of a gauge beyond its noise at a turning point, metres, as a standard deviation. Common practice, no source.</summary>
    public double LevelFloorMetres { get; init; } = 0.012;

    /// <summary>The same of the sand height, metres. Common practice, no source.</summary>
    public double SandFloorMetres { get; init; } = 0.022;

    /// <summary>Share of the standing spreads of level and sand height that is left where a gauge follows at once and its noise has no memory. Common practice, no source.</summary>
    public double PromptFloorRatio { get; init; } = 0.5;

    /// <summary>Standard deviation of a sand height that was reckoned through a dead zone or a drop-out, metres. Common practice, no source.</summary>
    public double ReckonedSandMetres { get; init; } = 0.15;

    /// <summary>Standard deviation of a recorded charge, as a ratio of its volume. Common practice, no source.</summary>
    public double ChargeRatio { get; init; } = 0.01;

    /// <summary>These numbers with some set by name, as a zone or barge does.</summary>
    /// <param name="set">Values by property name, first letter small; unknown names are left out (see <see cref="Unknown"/>).</param>
    public LogConstants With(IReadOnlyDictionary<string, double>? set)
    {
        if (set is null || set.Count == 0) return this;
        LogConstants changed = this with { };
        foreach ((string name, double value) in set) Find(name)?.SetValue(changed, value);
        return changed;
    }

    /// <summary>Names that are none of these numbers.</summary>
    public static IEnumerable<string> Unknown(IReadOnlyDictionary<string, double>? set)
        => set is null ? [] : set.Keys.Where(name => Find(name) is null);

    /// <summary>One of the numbers by its name.</summary>
    internal static double Value(LogConstants constants, string name)
        => (double)(Find(name) ?? throw new ArgumentOutOfRangeException(nameof(name), name, "no number by which logs are read")).GetValue(constants)!;

    private static PropertyInfo? Find(string name)
        => name.Length > 0 ? typeof(LogConstants).GetProperty(char.ToUpperInvariant(name[0]) + name[1..], BindingFlags.Public | BindingFlags.Instance) : null;
}
