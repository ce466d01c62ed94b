using NodaTime;

namespace SiteProgress.Core.Logs;

/// <summary>What one column of a log holds.</summary>
public enum LogChannel
{
    /// <summary>Casing tip, metres, as <see cref="PileLog.TipMeasure"/> says.</summary>
    Tip = 1,

    /// <summary>Sand in the casing, metres, as <see cref="PileLog.SandMeasure"/> says.</summary>
    Sand = 2,

    /// <summary>Air pressure in the casing above atmosphere, kilopascals.</summary>
    AirPressure = 3,

    /// <summary>Load of the vibratory hammer, in the unit of the barge (kilowatts or amperes).</summary>
    HammerLoad = 4,

    /// <summary>Inclination about the first axis of the barge, degrees.</summary>
    InclinationX = 5,

    /// <summary>Inclination about its second axis, degrees.</summary>
    InclinationY = 6,

    /// <summary>Sand filled into the casing since the sample before, loose cubic metres.</summary>
    Charge = 7,

    /// <summary>Valve at the tip: 1 open, 0 closed.</summary>
    Valve = 8,

    /// <summary>Water level, metres above the site's level datum.</summary>
    WaterLevel = 9,
}

/// <summary>What the tip column measures.</summary>
public enum TipMeasure
{
    /// <summary>Level of the casing tip, metres above the site's level datum, up positive.</summary>
    Level = 1,

    /// <summary>Depth of the casing tip below the water surface, metres, down positive; the log's own water level makes it a level.</summary>
    DepthBelowWater = 2,
}

/// <summary>What the sand column measures.</summary>
public enum SandMeasure
{
    /// <summary>Height of the sand above the casing tip, metres.</summary>
    HeightAboveTip = 1,

    /// <summary>Distance from the top of the casing down to the sand, metres.</summary>
    DistanceFromTop = 2,

    /// <summary>Level of the sand, metres above the site's level datum.</summary>
    Level = 3,
}

/// <summary>
/// The samples taken while a casing worked at one pile, as columns. A column that was not logged is empty; a value that was
/// not read is NaN. Every column that is there is as long as <see cref="Seconds"/>.
/// </summary>
public sealed record PileLog
{
    private readonly ReadOnlyMemory<double>[] _columns = new ReadOnlyMemory<double>[10];

    /// <summary>Makes a log of its columns.</summary>
    /// <param name="firstSample">Time of the first sample.</param>
    /// <param name="tipMeasure">What the tip column measures.</param>
    /// <param name="sandMeasure">What the sand column measures.</param>
    /// <param name="seconds">Time of each sample after the first, seconds, as the logger's clock said.</param>
    /// <param name="columns">The columns that were logged.</param>
    /// <exception cref="ArgumentException">A column is not as long as the times, or there is no tip.</exception>
    public PileLog(
        Instant firstSample, TipMeasure tipMeasure, SandMeasure sandMeasure, ReadOnlyMemory<double> seconds,
        IEnumerable<KeyValuePair<LogChannel, ReadOnlyMemory<double>>> columns)
    {
        ArgumentNullException.ThrowIfNull(columns);
        (FirstSample, TipMeasure, SandMeasure, Seconds) = (firstSample, tipMeasure, sandMeasure, seconds);
        foreach ((LogChannel channel, ReadOnlyMemory<double> values) in columns)
        {
            if (values.Length != seconds.Length) throw new ArgumentException($"{channel} has {values.Length} samples, the times {seconds.Length}.", nameof(columns));
            _columns[(int)channel] = values;
        }

        if (_columns[(int)LogChannel.Tip].Length == 0) throw new ArgumentException("A log without the casing tip tells nothing.", nameof(columns));
    }

    /// <summary>Time of the first sample.</summary>
    public Instant FirstSample { get; }

    /// <summary>What the tip column measures.</summary>
    public TipMeasure TipMeasure { get; }

    /// <summary>What the sand column measures.</summary>
    public SandMeasure SandMeasure { get; }

    /// <summary>Time of each sample after the first, seconds, as the logger's clock said.</summary>
    public ReadOnlyMemory<double> Seconds { get; }

    /// <summary>Number of samples.</summary>
    public int Count => Seconds.Length;

    /// <summary>Time of the last sample.</summary>
    public Instant LastSample => FirstSample + Duration.FromSeconds(Count == 0 ? 0 : Seconds.Span[^1]);

    /// <summary>The channels that were logged, in order.</summary>
    public IEnumerable<LogChannel> Channels => Enum.GetValues<LogChannel>().Where(Has);

    /// <summary>True when the channel was logged.</summary>
    public bool Has(LogChannel channel) => _columns[(int)channel].Length > 0;

    /// <summary>The samples of a channel; empty when it was not logged.</summary>
    public ReadOnlySpan<double> Of(LogChannel channel) => _columns[(int)channel].Span;
}
