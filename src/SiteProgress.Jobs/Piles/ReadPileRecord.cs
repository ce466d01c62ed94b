using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Npgsql;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Storage;
using SiteProgress.Storage.Derived;

namespace SiteProgress.Jobs.Piles;

/// <summary>The record of one pile: what was planned, what was built, how it was judged, and what came in about it.</summary>
public sealed class ReadPileRecord(IDbContextFactory<SiteProgressDb> contexts, NpgsqlDataSource store)
{
    /// <summary>What is known of a number that no pile of the design carries.</summary>
    /// <param name="Meant">The one pile whose number differs only in case, hyphens or leading zeros.</param>
    /// <param name="Near">Numbers a person may have meant, nearest first.</param>
    /// <param name="RecordedUnderIt">Installations recorded under the number all the same, such as trial piles.</param>
    public sealed record Unknown(string? Meant, IReadOnlyList<string> Near, int RecordedUnderIt);

    /// <summary>Reads the record of a planned pile.</summary>
    /// <returns>Null where the design holds no such number.</returns>
    [Needs(Right.See)]
    public async Task<PileRecord?> RunAsync(Permit permit, string number, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        await using SiteProgressDb db = await contexts.CreateDbContextAsync(cancellation);
        PileRow? pile = await db.Piles.AsNoTracking().FirstOrDefaultAsync(row => row.Site == permit.Site && row.Number == number, cancellation);
        SiteStateRow? state = await db.SiteStates.AsNoTracking().FirstOrDefaultAsync(row => row.Site == permit.Site, cancellation);
        if (pile is null || state?.Settings is null) return null;
        SiteSettings settings = JsonSerializer.Deserialize<SiteSettings>(state.Settings, RecordJson.Options)!;
        List<InstallationRow> attempts = await db.Installations.AsNoTracking()
            .Where(row => row.Site == permit.Site && (row.Adopted == number || row.RecordedNumber == number || (row.Adopted == null && row.Nearest == number)))
            .OrderBy(row => row.StartedAt ?? row.EndedAt).ThenBy(row => row.Sequence)
            .ToListAsync(cancellation);
        Dictionary<long, BatchRow> batches = await db.Batches.AsNoTracking().Where(row => row.Site == permit.Site).ToDictionaryAsync(row => row.Batch, cancellation);

        await using NpgsqlConnection connection = await store.OpenConnectionAsync(cancellation);
        IReadOnlyList<KeptRecord> records = await RecordsOfPile.ReadAsync(connection, permit.Site, number, [.. attempts.Select(row => row.Sequence)], cancellation);
        IReadOnlyDictionary<string, string> names = await RecorderNames.ReadAsync(connection, records.Select(record => record.RecordedBy), cancellation);
        PileAssembly assembly = new(settings, new SiteFrames([.. records.Select(record => record.Body).OfType<AdjustmentBody>()]), pile);
        return new PileRecord(
            pile.Number,
            (PileState)pile.State,
            assembly.Zone,
            assembly.Names(),
            assembly.Design(),
            pile.Standing.Length == 0 ? null : assembly.AsBuilt(attempts),
            JsonSerializer.Deserialize<IReadOnlyList<CheckResult>>(pile.Checks, RecordJson.Options) ?? [],
            assembly.Attempts(attempts, records.ToDictionary(record => record.Sequence), batches, names),
            HistoryOfPile.Of(records, batches, pile.DesignSequence, names),
            await NeighboursAsync(connection, permit.Site, pile, cancellation),
            state.Sequence)
        {
            DesignStanding = new DesignStanding(pile.DesignRevision, pile.DesignChange, pile.DesignChangeOpen, pile.TakenOutBy),
        };
    }

    /// <summary>Looks what may have been meant by a number the design does not hold.</summary>
    [Needs(Right.See)]
    public async Task<Unknown> LookAroundAsync(Permit permit, string number, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        await using SiteProgressDb db = await contexts.CreateDbContextAsync(cancellation);
        List<string> numbers = await db.Piles.Where(row => row.Site == permit.Site).Select(row => row.Number).ToListAsync(cancellation);
        int recorded = await db.Installations.CountAsync(row => row.Site == permit.Site && row.RecordedNumber == number, cancellation);
        string plain = NearNumbers.Plain(number);
        string[] same = numbers.Where(one => NearNumbers.Plain(one) == plain).Take(2).ToArray();
        return new Unknown(same.Length == 1 && recorded == 0 ? same[0] : null, NearNumbers.Of(number, numbers, 12), recorded);
    }

    private static async Task<NeighbourNumbers> NeighboursAsync(NpgsqlConnection connection, int site, PileRow pile, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = new(
            """
            select (select number from derived.pile where site = $1 and number < $2 order by number desc limit 1),
                   (select number from derived.pile where site = $1 and number > $2 order by number limit 1),
                   (select number from derived.pile where site = $1 and barge = $3 and (ended_at, number) < ($4, $2) order by ended_at desc, number desc limit 1),
                   (select number from derived.pile where site = $1 and barge = $3 and (ended_at, number) > ($4, $2) order by ended_at, number limit 1)
            """,
            connection);
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = site });
        command.Parameters.Add(new NpgsqlParameter<string> { TypedValue = pile.Number });
        command.Parameters.Add(new NpgsqlParameter { Value = (object?)pile.Barge ?? DBNull.Value, NpgsqlDbType = NpgsqlTypes.NpgsqlDbType.Text });
        command.Parameters.Add(new NpgsqlParameter { Value = (object?)pile.EndedAt ?? DBNull.Value, NpgsqlDbType = NpgsqlTypes.NpgsqlDbType.TimestampTz });
        await using NpgsqlDataReader reader = await command.ExecuteReaderAsync(cancellation);
        await reader.ReadAsync(cancellation);
        string? At(int column) => reader.IsDBNull(column) ? null : reader.GetString(column);
        return new NeighbourNumbers(At(0), At(1), At(2), At(3));
    }
}
