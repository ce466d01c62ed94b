using System.Globalization;
using NodaTime;
using NodaTime.Text;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Levels;

/// <summary>
/// Water levels of one gauge on the site's datum. Between two readings the level is interpolated linearly in time, but only where
/// they lie no farther apart than the gauge's largest gap; before the first and after the last reading there is no level.
/// (Common practice, no source.)
/// </summary>
public sealed class WaterLevelSeries
{
    private static readonly InstantPattern Minute = InstantPattern.CreateWithInvariantCulture("uuuu-MM-dd HH:mm'Z'");
    private readonly Instant[] _times;
    private readonly double[] _readings;
    private readonly Gauge[] _revisions;

    private WaterLevelSeries(string gauge, Instant[] times, double[] readings, Gauge[] revisions)
        => (Gauge, _times, _readings, _revisions) = (gauge, times, readings, revisions);

    /// <summary>Largest gap of a gauge that was never described, minutes.</summary>
    public static double DefaultLargestGapMinutes => 30;

    /// <summary>Name of the gauge.</summary>
    public string Gauge { get; }

    /// <summary>Number of readings.</summary>
    public int Count => _times.Length;

    /// <summary>Puts the readings of a gauge together.</summary>
    /// <param name="gauge">Name of the gauge.</param>
    /// <param name="blocks">Its readings in the order in which they were recorded; of two readings of one moment the later recorded holds.</param>
    /// <param name="revisions">Its descriptions in the order in which they were recorded; of two valid from one moment the later holds.</param>
    public static WaterLevelSeries Of(string gauge, IEnumerable<WaterLevels> blocks, IEnumerable<Gauge> revisions)
    {
        ArgumentNullException.ThrowIfNull(blocks);
        ArgumentNullException.ThrowIfNull(revisions);
        Dictionary<Instant, double> byTime = [];
        foreach (WaterLevels block in blocks)
        {
            foreach (double[] reading in block.Readings) byTime[block.From + Duration.FromSeconds(reading[0])] = reading[1];
        }

        Instant[] times = [.. byTime.Keys.Order()];
        return new WaterLevelSeries(
            gauge, times, Array.ConvertAll(times, time => byTime[time]), [.. revisions.OrderBy(revision => revision.ValidFrom)]);
    }

    /// <summary>Every reading as a water level at the site, in order of time.</summary>
    public IReadOnlyList<(Instant At, double LevelMetres)> Levels
        => [.. _times.Zip(_readings, (time, reading) => (time, Level(DescribedAt(time), time, reading, time, time).LevelMetres!.Value))];

    /// <summary>The water level at the site at a moment, or why there is none.</summary>
    public WaterLevel At(Instant moment)
    {
        Gauge described = DescribedAt(moment);
        int found = Array.BinarySearch(_times, moment);
        if (found >= 0) return Level(described, moment, _readings[found], _times[found], _times[found]);
        int after = ~found;
        if (after == 0 || after == _times.Length)
        {
            return WaterLevel.None(Gauge, _times.Length == 0
                ? $"Gauge {Gauge} has no readings."
                : $"Gauge {Gauge} has readings from {Minute.Format(_times[0])} to {Minute.Format(_times[^1])}, none around {Minute.Format(moment)}.");
        }

        (Instant before, Instant next) = (_times[after - 1], _times[after]);
        double gap = (next - before).TotalMinutes;
        if (gap > described.LargestGapMinutes)
        {
            return WaterLevel.None(Gauge, string.Create(
                CultureInfo.InvariantCulture,
                $"Gauge {Gauge} has no reading from {Minute.Format(before)} to {Minute.Format(next)}: {gap:0.#} min, more than its largest gap of {described.LargestGapMinutes:0.#} min."));
        }

        double share = (moment - before) / (next - before);
        return Level(described, moment, _readings[after - 1] + (share * (_readings[after] - _readings[after - 1])), before, next);
    }

    private static WaterLevel Level(Gauge described, Instant moment, double reading, Instant before, Instant after)
        => new(described.Name, moment, reading + described.ZeroLevelMetres + described.OffsetToSiteMetres, reading, described, before, after, null);

    private Gauge DescribedAt(Instant moment)
        => Array.FindLast(_revisions, revision => revision.ValidFrom <= moment)
            ?? new Gauge(Gauge, Instant.MinValue, 0, 0, DefaultLargestGapMinutes, "The gauge was not described: its readings are taken as levels on the site's datum.");
}

/// <summary>A water level at one moment, with what it comes from.</summary>
/// <param name="Gauge">Name of the gauge.</param>
/// <param name="At">The moment.</param>
/// <param name="LevelMetres">Water level at the site, metres on the site's datum; null where there is none.</param>
/// <param name="ReadingMetres">Reading of the gauge at the moment, interpolated, metres.</param>
/// <param name="Described">Zero, offset and largest gap used.</param>
/// <param name="Before">Time of the reading before.</param>
/// <param name="After">Time of the reading after.</param>
/// <param name="Missing">Why there is none.</param>
public sealed record WaterLevel(
    string Gauge, Instant At, double? LevelMetres, double? ReadingMetres, Gauge? Described, Instant? Before, Instant? After, string? Missing)
{
    internal static WaterLevel None(string gauge, string why) => new(gauge, default, null, null, null, null, null, why);
}
