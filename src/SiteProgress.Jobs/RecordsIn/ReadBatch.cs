using Microsoft.EntityFrameworkCore;
using Npgsql;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Sites;
using SiteProgress.Storage;
using SiteProgress.Storage.Derived;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>One batch with its rows, withdrawn or not.</summary>
public sealed class ReadBatch(IDbContextFactory<SiteProgressDb> database, NpgsqlDataSource store)
{
    /// <summary>Rows of one answer at most.</summary>
    public static int MostRows => 100_000;

    /// <summary>The batch and some of its rows; null where the site has no such batch.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="batch">Sequence of the batch.</param>
    /// <param name="waitingOnly">True for the installations that wait for a decision alone.</param>
    /// <param name="skip">Rows to leave out from the beginning.</param>
    /// <param name="take">Rows to give.</param>
    /// <param name="cancellation">Stops the reading.</param>
    [Needs(Right.See)]
    public async Task<BatchRead?> RunAsync(Permit permit, long batch, bool waitingOnly, int skip, int take, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        await using SiteProgressDb db = await database.CreateDbContextAsync(cancellation);
        if (await ReadBatches.SummariesAsync(db, store, permit.Site, batch, cancellation) is not [{ } summary]) return null;
        List<BatchLine> lines = await LinesAsync(permit.Site, batch, waitingOnly, Math.Max(0, skip), Math.Clamp(take, 0, MostRows), cancellation);
        Dictionary<MatchOutcome, int> matches = await db.Set<InstallationRow>().AsNoTracking()
            .Where(row => row.Site == permit.Site && row.Batch == batch)
            .GroupBy(row => row.Match).Select(group => new { group.Key, Count = group.Count() })
            .ToDictionaryAsync(group => (MatchOutcome)group.Key, group => group.Count, cancellation);
        int inForce = await PilesInForceAsync(permit.Site, batch, cancellation);
        return new BatchRead(summary, matches, inForce, waitingOnly ? summary.Waiting : summary.Content is BatchContent.WaterLevels or BatchContent.SeabedSoundings ? lines.Count : summary.RowsRecorded, lines, (await ReadSettings.InForceAsync(store, permit.Site, cancellation))!);
    }

    private async Task<List<BatchLine>> LinesAsync(int site, long batch, bool waitingOnly, int skip, int take, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = store.CreateCommand(
            $"""
            select r.sequence, r.kind, r.body, i.match, i.adopted, i.nearest, i.distance_to_named, i.distance_to_nearest, i.same_as,
                   l.outcome, l.installation, l.against, l.number
            from record.site_record r
            {(waitingOnly ? "join" : "left join")} derived.installation i on i.site = r.site and i.sequence = r.sequence
            left join derived.pile_log l on l.site = r.site and l.sequence = r.sequence
            where r.site = $1 and r.batch = $2 {(waitingOnly ? "and i.waits_for_decision" : "")}
            order by r.sequence offset $3 limit $4
            """);
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = site });
        command.Parameters.Add(new NpgsqlParameter<long> { TypedValue = batch });
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = skip });
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = take });
        await using NpgsqlDataReader reader = await command.ExecuteReaderAsync(cancellation);
        List<BatchLine> lines = [];
        while (await reader.ReadAsync(cancellation))
        {
            RecordBody body = RecordJson.FromBytes((RecordKind)reader.GetInt16(1), reader.GetFieldValue<byte[]>(2));
            lines.Add(new BatchLine(PreviewUpload.LineOf(body), reader.GetInt64(0), body, Match(reader)) { Log = Log(reader) });
        }

        return lines;
    }

    private static LogLine? Log(NpgsqlDataReader reader) => reader.IsDBNull(9)
        ? null
        : new LogLine(
            (LogJoinOutcome)reader.GetInt16(9), reader.IsDBNull(10) ? null : reader.GetInt64(10), reader.IsDBNull(11) ? null : reader.GetString(11),
            reader.IsDBNull(12) ? null : reader.GetString(12));

    private static InstallationMatch? Match(NpgsqlDataReader reader) => reader.IsDBNull(3)
        ? null
        : new InstallationMatch(
            (MatchOutcome)reader.GetInt16(3),
            reader.IsDBNull(4) ? null : reader.GetString(4),
            reader.IsDBNull(5) ? null : reader.GetString(5),
            reader.IsDBNull(6) ? null : reader.GetDouble(6),
            reader.IsDBNull(7) ? null : reader.GetDouble(7),
            reader.IsDBNull(8) ? null : reader.GetInt64(8));

    private async Task<int> PilesInForceAsync(int site, long batch, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = store.CreateCommand(
            """
            select count(*)::int from derived.pile p join record.site_record r on r.site = p.site and r.sequence = p.design_sequence
            where p.site = $1 and r.batch = $2
            """);
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = site });
        command.Parameters.Add(new NpgsqlParameter<long> { TypedValue = batch });
        return (int)(await command.ExecuteScalarAsync(cancellation))!;
    }
}

/// <summary>A batch as read.</summary>
/// <param name="Summary">What the batch says of itself.</param>
/// <param name="Matches">For installations that count: how many stand how to the design.</param>
/// <param name="PilesInForce">For planned piles: how many piles of the design in force come from this batch.</param>
/// <param name="RowCount">Rows there are, shown or not.</param>
/// <param name="Rows">The rows asked for.</param>
/// <param name="Settings">Settings in force.</param>
public sealed record BatchRead(
    BatchSummary Summary,
    IReadOnlyDictionary<MatchOutcome, int> Matches,
    int PilesInForce,
    int RowCount,
    IReadOnlyList<BatchLine> Rows,
    SiteSettings Settings);
