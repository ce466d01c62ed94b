using System.Text.Json;
using NodaTime;
using Npgsql;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Sites;

namespace SiteProgress.Jobs.Calibrations;

/// <summary>Calibrations, check measurements and gauges of a site.</summary>
public sealed class ReadCalibrations(NpgsqlDataSource store)
{
    /// <summary>Reads them.</summary>
    [Needs(Right.See)]
    public async Task<CalibrationsView> RunAsync(Permit permit, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        SiteSettings? settings = await StoredSettings.ReadAsync(store, permit.Site, cancellation);
        List<CalibrationLine> calibrations = await store.ReadAsync(
            "select sequence, batch, valid_until, values::text, installations from derived.calibration where site = $1 order by barge, casing nulls first, valid_from desc, sequence desc",
            row => new CalibrationLine(row.GetInt64(0), row.GetInt64(1), JsonSerializer.Deserialize<Calibration>(row.GetString(3), RecordJson.Options)!, At(row, 2), row.GetInt32(4)),
            cancellation, RowReading.Site(permit.Site));
        List<GaugeLine> gauges = await store.ReadAsync(
            """
            select g.gauge, d.zero_level, d.offset_to_site, d.largest_gap, d.valid_from, d.evidence, w.readings, w.first_at, w.last_at, w.gap
            from (select gauge from derived.water_day where site = $1 union select gauge from derived.gauge where site = $1) g
            left join lateral (select * from derived.gauge where site = $1 and gauge = g.gauge order by valid_from desc, sequence desc limit 1) d on true
            left join lateral (select sum(readings)::int as readings, min(first_at) as first_at, max(last_at) as last_at, max(largest_gap) as gap
                               from derived.water_day where site = $1 and gauge = g.gauge) w on true
            order by g.gauge
            """,
            row => new GaugeLine(row.GetString(0), row.NumberOrNull(1), row.NumberOrNull(2), row.NumberOrNull(3), At(row, 4), row.TextOrNull(5), row.WholeOrNull(6) ?? 0, At(row, 7), At(row, 8), row.NumberOrNull(9)),
            cancellation, RowReading.Site(permit.Site));
        List<GaugeCheckLine> checks = await store.ReadAsync(
            "select gauge, checked_at, level, gauge_level, missing, method, uncertainty from derived.gauge_check where site = $1 order by checked_at desc",
            row => new GaugeCheckLine(row.GetString(0), At(row, 1)!.Value, row.GetDouble(2), row.NumberOrNull(3), row.TextOrNull(4), row.GetString(5), row.GetDouble(6)),
            cancellation, RowReading.Site(permit.Site));
        Dictionary<string, (Instant? Last, int Count)> measured = (await store.ReadAsync(
            "select barge, max(measured_at), count(*)::int from derived.position_check where site = $1 group by barge",
            row => (Barge: row.GetString(0), Last: At(row, 1), Count: row.GetInt32(2)), cancellation, RowReading.Site(permit.Site))).ToDictionary(one => one.Barge, one => (one.Last, one.Count));
        return new CalibrationsView(
            [.. (settings?.Barges ?? []).Select(barge => new BargeChecked(barge, measured.GetValueOrDefault(barge.Name).Last, measured.GetValueOrDefault(barge.Name).Count))],
            calibrations, gauges, checks, settings?.GridAxes ?? new GridAxes("X", "Y"), settings?.LevelDatum.Name ?? "", settings?.TimeZone ?? "UTC");
    }

    private static Instant? At(NpgsqlDataReader row, int column) => row.MomentOrNull(column) is { } utc ? Instant.FromDateTimeUtc(utc) : null;
}

/// <summary>What the page of calibrations shows.</summary>
/// <param name="Barges">Barges with when each was last checked.</param>
/// <param name="Calibrations">Calibrations by barge and casing, the latest first.</param>
/// <param name="Gauges">Gauges.</param>
/// <param name="GaugeChecks">Checks of gauges, the latest first.</param>
/// <param name="Axes">Names of the axes of the site grid.</param>
/// <param name="LevelDatum">Name of the level datum.</param>
/// <param name="TimeZone">IANA time zone of the site.</param>
public sealed record CalibrationsView(
    IReadOnlyList<BargeChecked> Barges, IReadOnlyList<CalibrationLine> Calibrations, IReadOnlyList<GaugeLine> Gauges,
    IReadOnlyList<GaugeCheckLine> GaugeChecks, GridAxes Axes, string LevelDatum, string TimeZone);

/// <summary>A barge and its check measurements.</summary>
/// <param name="Barge">The barge.</param>
/// <param name="LastChecked">When a casing of it was last measured independently.</param>
/// <param name="Checks">How many check measurements there are.</param>
public sealed record BargeChecked(Barge Barge, Instant? LastChecked, int Checks);

/// <summary>A calibration.</summary>
/// <param name="Sequence">Sequence of its record.</param>
/// <param name="Batch">Sequence of its batch.</param>
/// <param name="Value">The calibration.</param>
/// <param name="Until">When another took its place; null while it holds.</param>
/// <param name="Installations">Installations made with it.</param>
public sealed record CalibrationLine(long Sequence, long Batch, Calibration Value, Instant? Until, int Installations);

/// <summary>A gauge with how it is described and what it read.</summary>
public sealed record GaugeLine(
    string Gauge, double? ZeroMetres, double? OffsetMetres, double? LargestGapMinutes, Instant? ValidFrom, string? Evidence, int Readings, Instant? First, Instant? Last, double? GapMinutes);

/// <summary>A check of a gauge.</summary>
public sealed record GaugeCheckLine(string Gauge, Instant At, double LevelMetres, double? GaugeMetres, string? Missing, string Method, double UncertaintyMetres);
