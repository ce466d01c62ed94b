using System.Text.Json;
using NodaTime;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Levels;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Storage.Derived;

/// <summary>Calibrations, water levels, clocks and senders' keys as rows.</summary>
public static class SurveyRows
{
    /// <summary>Calibrations that count.</summary>
    public static CalibrationRow[] Calibrations(DerivedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        CalibrationsInForce inForce = new(site.History);
        ILookup<long, DerivedInstallation> made = site.Installations.Where(one => one.Located.Calibration is not null).ToLookup(one => one.Located.Calibration!.Value);
        return [.. site.History.Calibrations.Select(row => new CalibrationRow
        {
            Sequence = row.Sequence,
            Batch = row.Batch,
            Barge = row.Value.Barge,
            Casing = row.Value.Casing,
            ValidFrom = row.Value.ValidFrom.ToDateTimeUtc(),
            ValidUntil = inForce.Until(row)?.ToDateTimeUtc(),
            Values = JsonSerializer.Serialize(row.Value, RecordJson.Options),
            Installations = made[row.Sequence].Count(),
        })];
    }

    /// <summary>What gauges read, by day.</summary>
    public static WaterDayRow[] WaterDays(DerivedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return [.. site.History.WaterLevels
            .GroupBy(row => (Gauge: row.Value.Gauge, Day: row.Value.From.InUtc().Date))
            .Select(group => WaterDay(group.Key.Gauge, group.Key.Day, group.Select(row => row.Value)))
            .OfType<WaterDayRow>()];
    }

    /// <summary>Revisions of gauges.</summary>
    public static GaugeRow[] Gauges(DerivedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return [.. site.History.Gauges.Select(kept => new GaugeRow
        {
            Sequence = kept.Sequence,
            Gauge = kept.Body.Gauge.Name,
            ValidFrom = kept.Body.Gauge.ValidFrom.ToDateTimeUtc(),
            ZeroLevel = kept.Body.Gauge.ZeroLevelMetres,
            OffsetToSite = kept.Body.Gauge.OffsetToSiteMetres,
            LargestGap = kept.Body.Gauge.LargestGapMinutes,
            Evidence = kept.Body.Gauge.Evidence,
            Reason = kept.Body.Reason,
            RecordedAt = kept.At.ToDateTimeUtc(),
            RecordedBy = kept.By,
        })];
    }

    /// <summary>Checks of gauges.</summary>
    public static GaugeCheckRow[] GaugeChecks(DerivedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        Dictionary<string, WaterLevelSeries> series = site.History.GaugeChecks
            .Select(kept => kept.Body.Check.Gauge).Distinct().ToDictionary(gauge => gauge, gauge => SiteWater.Series(site.History, gauge));
        return [.. site.History.GaugeChecks.Select(kept =>
        {
            GaugeCheck check = kept.Body.Check;
            WaterLevel given = series[check.Gauge].At(check.At);
            return new GaugeCheckRow
            {
                Sequence = kept.Sequence,
                Gauge = check.Gauge,
                CheckedAt = check.At.ToDateTimeUtc(),
                Level = check.LevelMetres,
                GaugeLevel = given.LevelMetres,
                Missing = given.Missing,
                Method = check.Method,
                Uncertainty = check.UncertaintyMetres,
                RecordedBy = kept.By,
            };
        })];
    }

    /// <summary>Corrections of clocks.</summary>
    public static ClockCorrectionRow[] ClockCorrections(DerivedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        Dictionary<long, int> moved = site.Installations.Where(one => one.Clock is not null)
            .GroupBy(one => one.Clock!.Sequence).ToDictionary(group => group.Key, group => group.Count());
        return [.. site.History.ClockCorrections.Select(kept => new ClockCorrectionRow
        {
            Sequence = kept.Sequence,
            Barge = kept.Body.Correction.Barge,
            Sender = kept.Body.Correction.Sender,
            SpanFrom = kept.Body.Correction.From.ToDateTimeUtc(),
            SpanUntil = kept.Body.Correction.Until.ToDateTimeUtc(),
            Ahead = kept.Body.Correction.AheadSeconds,
            Reason = kept.Body.Correction.Reason,
            Installations = moved.GetValueOrDefault(kept.Sequence),
            RecordedAt = kept.At.ToDateTimeUtc(),
            RecordedBy = kept.By,
        })];
    }

    /// <summary>Keys of senders.</summary>
    public static SenderKeyRow[] SenderKeys(DerivedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return [.. site.History.SenderKeys.Values.Select(key => new SenderKeyRow
        {
            Key = key.Body.Key,
            Sender = key.Body.Sender,
            Barges = [.. key.Body.Barges],
            Sequence = key.Sequence,
            MadeAt = key.MadeAt.ToDateTimeUtc(),
            MadeBy = key.MadeBy,
            WithdrawnAt = key.Withdrawal?.At.ToDateTimeUtc(),
            WithdrawnBy = key.Withdrawal?.By,
            WithdrawnBecause = key.Withdrawal?.Reason,
        })];
    }

    private static WaterDayRow? WaterDay(string gauge, LocalDate day, IEnumerable<WaterLevels> blocks)
    {
        (Instant At, double Metres)[] readings = [.. blocks
            .SelectMany(block => block.Readings.Select(reading => (At: block.From + Duration.FromSeconds(reading[0]), Metres: reading[1])))
            .OrderBy(reading => reading.At)];
        if (readings.Length == 0) return null;
        double gap = 0;
        for (int index = 1; index < readings.Length; index++) gap = Math.Max(gap, (readings[index].At - readings[index - 1].At).TotalMinutes);
        return new WaterDayRow
        {
            Gauge = gauge,
            Day = new DateOnly(day.Year, day.Month, day.Day),
            Readings = readings.Length,
            FirstAt = readings[0].At.ToDateTimeUtc(),
            LastAt = readings[^1].At.ToDateTimeUtc(),
            Lowest = readings.Min(reading => reading.Metres),
            Highest = readings.Max(reading => reading.Metres),
            LargestGap = gap,
        };
    }
}
