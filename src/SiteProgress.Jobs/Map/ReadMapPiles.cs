using System.Data;
using System.Globalization;
using System.Text.Json;
using NodaTime;
using NodaTime.Text;
using Npgsql;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;

namespace SiteProgress.Jobs.Map;

/// <summary>The piles of a site for the map, as one small binary answer.</summary>
public sealed class ReadMapPiles(NpgsqlDataSource store)
{
    private static readonly LocalDateTimePattern Minute = LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd HH:mm");

    /// <summary>
    /// What tells one answer from the next: the last record it follows from and the rules it was made by. The same tag, the
    /// same answer.
    /// </summary>
    [Needs(Right.See)]
    public async Task<string> TagAsync(Permit permit, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        await using NpgsqlConnection connection = await store.OpenConnectionAsync(cancellation);
        return (await MapSite.ReadAsync(connection, permit.Site, cancellation)).Tag;
    }

    /// <summary>Reads the piles. All of it belongs to one state of the store, whatever is recorded meanwhile.</summary>
    [Needs(Right.See)]
    public async Task<MapPiles> RunAsync(Permit permit, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        await using NpgsqlConnection connection = await store.OpenConnectionAsync(cancellation);
        await using NpgsqlTransaction one = await connection.BeginTransactionAsync(IsolationLevel.RepeatableRead, cancellation);
        MapSite site = await MapSite.ReadAsync(connection, permit.Site, cancellation);
        MapPileColumns columns = new(
            site.Settings.Zones.Select(zone => zone.Code),
            site.Settings.Barges.Select(barge => barge.Name),
            await DaysAsync(connection, permit.Site, cancellation));
        await FillAsync(connection, permit.Site, columns, cancellation);
        string recordedAt = await RecordedAtAsync(connection, permit.Site, site, cancellation);
        string? design = await DesignAsync(connection, permit.Site, site, cancellation);
        MapPreamble preamble = Preamble(site, columns, recordedAt, design);
        return new MapPiles(site.Tag, columns.Count, (output, stop) => MapPileWriter.WriteAsync(preamble, columns, output, stop));
    }

    private static MapPreamble Preamble(MapSite site, MapPileColumns columns, string recordedAt, string? design)
    {
        double convergence = 0;
        double scale = 1;
        PointerFit? fit = null;
        if (site.Service is { } service && columns.Count > 0)
        {
            (double south, double north, double west, double east) = (columns.Latitude.Min(), columns.Latitude.Max(), columns.Longitude.Min(), columns.Longitude.Max());
            GridDistortion middle = service.DistortionAt(new GeographicCoordinate((south + north) / 2, (west + east) / 2));
            (convergence, scale) = (middle.ConvergenceDegrees, middle.PointScaleFactor);
            fit = PointerFit.Over(service, [site.Settings.GridAxes.First, site.Settings.GridAxes.Second], south, north, west, east);
        }

        return new MapPreamble(columns.ZoneNames, columns.BargeNames, columns.Days, site.Sequence, recordedAt, design, convergence, scale, fit, columns.DesignChanged.Count == 0 ? null : columns.DesignChanged,
            columns.Waiting.Count == 0 ? null : columns.Waiting);
    }

    private static async Task<List<LocalDate>> DaysAsync(NpgsqlConnection connection, int site, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = Command(connection, "select distinct working_day from derived.pile where site = $1 and working_day is not null order by 1", site);
        await using NpgsqlDataReader reader = await command.ExecuteReaderAsync(cancellation);
        List<LocalDate> days = [];
        while (await reader.ReadAsync(cancellation)) days.Add(LocalDate.FromDateOnly(reader.GetFieldValue<DateOnly>(0)));
        return days;
    }

    private static async Task FillAsync(NpgsqlConnection connection, int site, MapPileColumns columns, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = Command(
            connection,
            """
            select number, latitude, longitude, zone, state, design_diameter, deviation_east, deviation_north, mean_diameter, working_day, barge, design_change_open, held_by
            from derived.pile where site = $1 order by number
            """,
            site);
        await using NpgsqlDataReader reader = await command.ExecuteReaderAsync(cancellation);
        while (await reader.ReadAsync(cancellation))
        {
            if (reader.GetBoolean(11)) columns.DesignChanged.Add(columns.Count);
            if (!reader.IsDBNull(12)) columns.Waiting.Add([columns.Count, reader.GetInt32(12)]);
            columns.Pile(reader.GetString(0), reader.GetDouble(1), reader.GetDouble(2))
                .Planned(reader.GetString(3), (PileState)reader.GetInt16(4), reader.GetDouble(5))
                .Built(
                    Maybe(reader, 6),
                    Maybe(reader, 7),
                    Maybe(reader, 8),
                    reader.IsDBNull(9) ? null : LocalDate.FromDateOnly(reader.GetFieldValue<DateOnly>(9)),
                    reader.IsDBNull(10) ? null : reader.GetString(10));
        }
    }

    private static async Task<string> RecordedAtAsync(NpgsqlConnection connection, int site, MapSite state, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = Command(connection, "select recorded_at from record.site_record where site = $1 and sequence = $2", site);
        command.Parameters.Add(new NpgsqlParameter<long> { TypedValue = state.Sequence });
        return await command.ExecuteScalarAsync(cancellation) is DateTime at ? SiteTime(at, state.Settings) : "";
    }

    private static async Task<string?> DesignAsync(NpgsqlConnection connection, int site, MapSite state, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = Command(
            connection,
            """
            select file_name, recorded_at from derived.batch
            where site = $1 and content = $2 and withdrawn_at is null order by batch desc limit 1
            """,
            site);
        command.Parameters.Add(new NpgsqlParameter<short> { TypedValue = (short)BatchContent.PlannedPiles });
        await using NpgsqlDataReader reader = await command.ExecuteReaderAsync(cancellation);
        return await reader.ReadAsync(cancellation)
            ? string.Create(CultureInfo.InvariantCulture, $"{reader.GetString(0)}, recorded {SiteTime(reader.GetDateTime(1), state.Settings)}")
            : null;
    }

    private static string SiteTime(DateTime utc, SiteSettings settings)
        => Minute.Format(Instant.FromDateTimeUtc(utc).InZone(DateTimeZoneProviders.Tzdb[settings.TimeZone]).LocalDateTime);

    private static double? Maybe(NpgsqlDataReader reader, int column) => reader.IsDBNull(column) ? null : reader.GetDouble(column);

    private static NpgsqlCommand Command(NpgsqlConnection connection, string sql, int site)
    {
        NpgsqlCommand command = new(sql, connection);
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = site });
        return command;
    }
}

/// <summary>The piles of a site, ready to be written.</summary>
/// <param name="Tag">What tells this answer from the next.</param>
/// <param name="Count">Number of piles.</param>
/// <param name="WriteAsync">Writes the answer; the stream is neither flushed nor closed.</param>
public sealed record MapPiles(string Tag, int Count, Func<Stream, CancellationToken, Task> WriteAsync);
