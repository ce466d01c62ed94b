using SiteProgress.Core.Levels;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Core.Derivation;

/// <summary>The water levels of a site from its records.</summary>
public static class SiteWater
{
    /// <summary>Names of the gauges that have readings or were described, in the order of their letters.</summary>
    public static IReadOnlyList<string> Gauges(SiteHistory history)
    {
        ArgumentNullException.ThrowIfNull(history);
        return [.. history.WaterLevels.Select(row => row.Value.Gauge)
            .Concat(history.Gauges.Select(kept => kept.Body.Gauge.Name)).Distinct(StringComparer.OrdinalIgnoreCase).Order(StringComparer.OrdinalIgnoreCase)];
    }

    /// <summary>The series of one gauge.</summary>
    public static WaterLevelSeries Series(SiteHistory history, string gauge)
    {
        ArgumentNullException.ThrowIfNull(history);
        return WaterLevelSeries.Of(
            gauge,
            history.WaterLevels.OrderBy(row => row.Sequence).Select(row => row.Value).Where(block => Same(block.Gauge, gauge)),
            history.Gauges.Select(kept => kept.Body.Gauge).Where(one => Same(one.Name, gauge)));
    }

    /// <summary>
    /// The series by which levels of the site are derived: that of the gauge described last, so that describing a gauge
    /// chooses it; without a description, that of the first gauge by name. Null where the site has none.
    /// </summary>
    public static WaterLevelSeries? Of(SiteHistory history)
    {
        ArgumentNullException.ThrowIfNull(history);
        string? gauge = history.Gauges is [.., var last] ? last.Body.Gauge.Name : Gauges(history) is [var first, ..] ? first : null;
        return gauge is null ? null : Series(history, gauge);
    }

    private static bool Same(string one, string other) => string.Equals(one, other, StringComparison.OrdinalIgnoreCase);
}
