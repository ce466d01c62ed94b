using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Npgsql;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Sites;
using SiteProgress.Storage;
using SiteProgress.Storage.Derived;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>What came in: all batches of a site, and files sent but not recorded.</summary>
public sealed class ReadBatches(IDbContextFactory<SiteProgressDb> database, NpgsqlDataSource store)
{
    private const int UnrecordedShown = 10;

    /// <summary>The list.</summary>
    [Needs(Right.See)]
    public async Task<RecordsInList> RunAsync(Permit permit, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        await using SiteProgressDb db = await database.CreateDbContextAsync(cancellation);
        IReadOnlyList<BatchSummary> batches = await SummariesAsync(db, store, permit.Site, null, cancellation);
        return new RecordsInList(
            batches,
            permit.Allows(Right.BringIn) ? await UnrecordedAsync(permit.Site, cancellation) : [],
            (await ReadSettings.InForceAsync(store, permit.Site, cancellation))?.TimeZone ?? "UTC");
    }

    internal static async Task<IReadOnlyList<BatchSummary>> SummariesAsync(
        SiteProgressDb db, NpgsqlDataSource store, int site, long? only, CancellationToken cancellation)
    {
        BatchRow[] rows = await db.Set<BatchRow>().AsNoTracking()
            .Where(row => row.Site == site && (only == null || row.Batch == only)).OrderByDescending(row => row.Batch).ToArrayAsync(cancellation);
        var installed = await db.Set<InstallationRow>().AsNoTracking()
            .Where(row => row.Site == site && (only == null || row.Batch == only))
            .GroupBy(row => row.Batch)
            .Select(group => new { Batch = group.Key, Waiting = group.Count(row => row.WaitsForDecision), First = group.Min(row => row.WorkingDay), Last = group.Max(row => row.WorkingDay) })
            .ToDictionaryAsync(group => group.Batch, cancellation);
        IReadOnlyDictionary<string, string> names = await RecorderNames.ReadAsync(
            store, rows.SelectMany(row => new[] { row.RecordedBy, row.WithdrawnBy }), cancellation);
        return Array.ConvertAll(rows, row =>
        {
            var built = installed.GetValueOrDefault(row.Batch);
            return new BatchSummary(
                row.Batch, row.Upload, row.FileName, row.Sha256, (BatchContent)row.Content, row.RowsRead, row.RowsRecorded,
                row.LinesLeftOut, row.Assumptions, Instant.FromDateTimeUtc(row.RecordedAt), Name(names, row.RecordedBy),
                row.WithdrawnAt is { } at ? new BatchWithdrawal(Instant.FromDateTimeUtc(at), Name(names, row.WithdrawnBy!), row.WithdrawnBecause!) : null,
                built?.Waiting ?? 0, Day(built?.First), Day(built?.Last))
            {
                Sender = row.Sender,
                Problems = row.Problems is { } problems ? JsonSerializer.Deserialize<RowProblem[]>(problems, RecordJson.Options)! : [],
            };
        });
    }

    private async Task<IReadOnlyList<UnrecordedUpload>> UnrecordedAsync(int site, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = store.CreateCommand(
            """
            select u.upload, u.file_name, u.byte_length, u.uploaded_at, coalesce(a.display_name, 'account without a name')
            from record.upload u left join account.account a on a.id = u.uploaded_by
            where u.site = $1 and u.byte_length > 0
              and not exists (select from derived.batch b where b.site = u.site and b.upload = u.upload)
              and not exists (select from derived.sender_key k where k.site = u.site and k.key = u.uploaded_by)
            order by u.uploaded_at desc, u.upload limit $2
            """);
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = site });
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = UnrecordedShown });
        await using NpgsqlDataReader reader = await command.ExecuteReaderAsync(cancellation);
        List<UnrecordedUpload> uploads = [];
        while (await reader.ReadAsync(cancellation))
        {
            uploads.Add(new UnrecordedUpload(
                reader.GetGuid(0), reader.GetString(1), reader.GetInt64(2), Instant.FromDateTimeUtc(reader.GetDateTime(3)), reader.GetString(4)));
        }

        return uploads;
    }

    private static string Name(IReadOnlyDictionary<string, string> names, string recorded) => names.GetValueOrDefault(recorded, recorded);

    private static LocalDate? Day(DateOnly? day) => day is { } date ? new LocalDate(date.Year, date.Month, date.Day) : null;
}
