using NodaTime;
using Npgsql;
using NpgsqlTypes;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Sites;

namespace SiteProgress.Jobs.History;

/// <summary>The history of a site: every record that is no row of a batch, with who, when and why.</summary>
public sealed class ReadHistory(NpgsqlDataSource store)
{
    /// <summary>Entries of one answer at most.</summary>
    public static int MostEntries => 10_000;

    /// <summary>A part of the history, the latest first.</summary>
    [Needs(Right.See)]
    public async Task<HistoryPart> RunAsync(Permit permit, HistoryFilter filter, int skip, int take, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        string zone = (await StoredSettings.ReadAsync(store, permit.Site, cancellation))?.TimeZone ?? "UTC";
        NpgsqlParameter[] asked = Parameters(permit.Site, filter, DateTimeZoneProviders.Tzdb.GetZoneOrNull(zone) ?? DateTimeZone.Utc);
        int total = (int)(await store.ReadAsync($"select count(*) {Where}", row => row.GetInt64(0), cancellation, asked))[0];
        List<Raw> rows = await store.ReadAsync(
            $"""
            select r.sequence, r.kind, r.recorded_at, r.recorded_by, r.body, r.hash,
                   case when r.kind in (2, 12) then (
                       select s.body from record.site_record s
                       where s.site = r.site and s.sequence < r.sequence
                         and (s.kind in (1, 2) or (s.kind = 12 and exists (
                           select from record.site_record d, lateral (select convert_from(d.body, 'UTF8')::jsonb as body) said
                           where d.site = s.site and d.kind = 13 and d.sequence < r.sequence and said.body->>'proposal' = s.sequence::text and (said.body->>'approved')::boolean)))
                       order by s.sequence desc limit 1) end
            {Where} order by r.sequence desc offset $6 limit $7
            """,
            row => new Raw(
                row.GetInt64(0), (RecordKind)row.GetInt16(1), Instant.FromDateTimeUtc(row.GetDateTime(2)), row.GetString(3), row.GetFieldValue<byte[]>(4),
                Convert.ToHexStringLower(row.GetFieldValue<byte[]>(5)), row.IsDBNull(6) ? null : row.GetFieldValue<byte[]>(6)),
            cancellation,
            [.. asked.Select(parameter => parameter.Clone()), RowReading.Whole(Math.Max(0, skip)), RowReading.Whole(Math.Clamp(take, 0, MostEntries))]);
        IReadOnlyDictionary<Guid, string> names = await NamesAsync(permit.Site, cancellation);
        return new HistoryPart(
            [.. rows.Select(row => Entry(row, names))], total, await RecordersAsync(permit.Site, names, cancellation), zone);
    }

    private const string Where =
        """
        from record.site_record r
        where r.site = $1 and r.batch is null
          and ($2::smallint[] is null or r.kind = any($2)) and ($3::text is null or r.recorded_by = $3)
          and ($4::timestamptz is null or r.recorded_at >= $4) and ($5::timestamptz is null or r.recorded_at < $5)
        """;

    private static NpgsqlParameter[] Parameters(int site, HistoryFilter filter, DateTimeZone zone) =>
    [
        RowReading.Site(site),
        RowReading.Value(filter.Group is { } group ? HistoryGroups.Kinds(group) : null, NpgsqlDbType.Array | NpgsqlDbType.Smallint),
        RowReading.Text(filter.By),
        RowReading.Value(filter.From is { } from ? zone.AtStartOfDay(from).ToInstant().ToDateTimeUtc() : null, NpgsqlDbType.TimestampTz),
        RowReading.Value(filter.To is { } to ? zone.AtStartOfDay(to.PlusDays(1)).ToInstant().ToDateTimeUtc() : null, NpgsqlDbType.TimestampTz),
    ];

    private static HistoryEntry Entry(Raw row, IReadOnlyDictionary<Guid, string> names)
    {
        (string what, string? why, HistoryTarget? touches) = HistoryWords.Of(row.Kind, row.Body, row.Before, names);
        if (row.Kind is RecordKind.BatchRecorded) touches = new HistoryTarget(HistoryPageName.Batch, FormattableString.Invariant($"{row.Sequence}"));
        return new HistoryEntry(row.Sequence, row.At, Name(row.By, names), HistoryGroups.Of(row.Kind), what, why, touches, row.Hash);
    }

    private static string Name(string written, IReadOnlyDictionary<Guid, string> names)
        => Guid.TryParse(written.AsSpan(written.LastIndexOf(' ') + 1), out Guid account) ? names.GetValueOrDefault(account, "an account that is no longer here") : written;

    /// <summary>Names of the people and senders of the site, and of whoever recorded or was named on it.</summary>
    private async Task<IReadOnlyDictionary<Guid, string>> NamesAsync(int site, CancellationToken cancellation)
    {
        List<(Guid Id, string Name)> names = await store.ReadAsync(
            """
            with named as (
                select distinct case when kind in (3, 4) then convert_from(body, 'UTF8')::jsonb->>'account' else substr(recorded_by, 9) end as id
                from record.site_record where site = $1 and batch is null and (kind in (3, 4) or recorded_by like 'account %')
                union select substr(recorded_by, 9) from record.site_record where site = $1 and batch is null and recorded_by like 'account %')
            select a.id, a.display_name from account.account a join named n on n.id = a.id::text
            union all
            select key, sender || ' (sender)' from derived.sender_key where site = $1
            """,
            row => (row.GetGuid(0), row.GetString(1)),
            cancellation,
            RowReading.Site(site));
        return names.ToDictionary(one => one.Id, one => one.Name);
    }

    private async Task<IReadOnlyList<(string Written, string Name)>> RecordersAsync(int site, IReadOnlyDictionary<Guid, string> names, CancellationToken cancellation)
        => [.. (await store.ReadAsync(
                "select distinct recorded_by from record.site_record where site = $1 and batch is null",
                row => row.GetString(0), cancellation, RowReading.Site(site)))
            .Select(written => (written, Name(written, names))).OrderBy(one => one.Item2, StringComparer.Ordinal)];

    private sealed record Raw(long Sequence, RecordKind Kind, Instant At, string By, byte[] Body, string Hash, byte[]? Before);
}
