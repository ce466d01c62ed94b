using System.Runtime.CompilerServices;
using NodaTime;
using Npgsql;
using NpgsqlTypes;
using SiteProgress.Core.Records;

namespace SiteProgress.Storage.Records;

/// <summary>The records of one site in the store: locked, read in order, added to. There is no way to change one.</summary>
/// <param name="connection">An open connection.</param>
/// <param name="site">Key of the site.</param>
public sealed class RecordLog(NpgsqlConnection connection, int site)
{
    /// <summary>
    /// Takes the site's lock until the end of the transaction and says where its chain ends. Two writers of one site wait
    /// for each other here, so the sequence has no gap and the derived state follows from all records.
    /// </summary>
    /// <exception cref="InvalidOperationException">The site has no state row: it was not opened by the operator's command.</exception>
    public Task<ChainHead> LockAsync(CancellationToken cancellation) => HeadAsync(" for update", cancellation);

    /// <summary>Where the chain of the site ends, without a lock.</summary>
    /// <exception cref="InvalidOperationException">The site was not opened.</exception>
    public Task<ChainHead> HeadAsync(CancellationToken cancellation) => HeadAsync("", cancellation);

    private async Task<ChainHead> HeadAsync(string locking, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = new(
            "select sequence, hash, rules_version from derived.site_state where site = $1" + locking, connection);
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = site });
        await using NpgsqlDataReader reader = await command.ExecuteReaderAsync(cancellation);
        if (!await reader.ReadAsync(cancellation)) throw new InvalidOperationException($"Site {site} was never opened.");
        return new ChainHead(reader.GetInt64(0), new ChainHash(reader.GetFieldValue<byte[]>(1)), reader.GetInt32(2));
    }

    /// <summary>Records after a sequence, in order.</summary>
    public IAsyncEnumerable<RecordEntry> ReadAsync(long afterSequence, CancellationToken cancellation) => ReadAsync(afterSequence, long.MaxValue, cancellation);

    /// <summary>Records after a sequence up to another, which is in it, in order.</summary>
    public async IAsyncEnumerable<RecordEntry> ReadAsync(
        long afterSequence, long lastSequence, [EnumeratorCancellation] CancellationToken cancellation)
    {
        await using NpgsqlCommand command = new(
            """
            select sequence, kind, recorded_at, recorded_by, batch, body, hash
            from record.site_record where site = $1 and sequence > $2 and sequence <= $3 order by sequence
            """,
            connection);
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = site });
        command.Parameters.Add(new NpgsqlParameter<long> { TypedValue = afterSequence });
        command.Parameters.Add(new NpgsqlParameter<long> { TypedValue = lastSequence });
        await using NpgsqlDataReader reader = await command.ExecuteReaderAsync(cancellation);
        while (await reader.ReadAsync(cancellation))
        {
            yield return new RecordEntry(
                reader.GetInt64(0),
                (RecordKind)reader.GetInt16(1),
                Instant.FromDateTimeUtc(reader.GetDateTime(2)),
                reader.GetString(3),
                reader.IsDBNull(4) ? null : reader.GetInt64(4),
                reader.GetFieldValue<byte[]>(5),
                new ChainHash(reader.GetFieldValue<byte[]>(6)));
        }
    }

    /// <summary>The hash kept with a record; null where there is no such record.</summary>
    public async Task<ChainHash?> HashAtAsync(long sequence, CancellationToken cancellation)
    {
        if (sequence == 0) return ChainHash.BeforeFirst;
        await using NpgsqlCommand command = new("select hash from record.site_record where site = $1 and sequence = $2", connection);
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = site });
        command.Parameters.Add(new NpgsqlParameter<long> { TypedValue = sequence });
        return await command.ExecuteScalarAsync(cancellation) is byte[] bytes ? new ChainHash(bytes) : null;
    }

    /// <summary>Adds records at the end, in one stream, and hands each on when it is sent.</summary>
    /// <returns>The last of them.</returns>
    public async Task<RecordEntry> AppendAsync(IEnumerable<RecordEntry> records, Action<RecordEntry> sent, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(records);
        ArgumentNullException.ThrowIfNull(sent);
        RecordEntry? last = null;
        await using NpgsqlBinaryImporter importer = await connection.BeginBinaryImportAsync(
            "copy record.site_record (site, sequence, kind, recorded_at, recorded_by, batch, body, hash) from stdin (format binary)",
            cancellation);
        foreach (RecordEntry record in records)
        {
            await importer.StartRowAsync(cancellation);
            await importer.WriteAsync(site, NpgsqlDbType.Integer, cancellation);
            await importer.WriteAsync(record.Sequence, NpgsqlDbType.Bigint, cancellation);
            await importer.WriteAsync((short)record.Kind, NpgsqlDbType.Smallint, cancellation);
            await importer.WriteAsync(record.RecordedAt.ToDateTimeUtc(), NpgsqlDbType.TimestampTz, cancellation);
            await importer.WriteAsync(record.RecordedBy, NpgsqlDbType.Text, cancellation);
            if (record.Batch is { } batch) await importer.WriteAsync(batch, NpgsqlDbType.Bigint, cancellation);
            else await importer.WriteNullAsync(cancellation);
            await importer.WriteAsync(record.Body, NpgsqlDbType.Bytea, cancellation);
            await importer.WriteAsync(record.Hash.Bytes, NpgsqlDbType.Bytea, cancellation);
            sent(record);
            last = record;
        }

        await importer.CompleteAsync(cancellation);
        return last ?? throw new ArgumentException("There is no record to add.", nameof(records));
    }
}

/// <summary>Where the chain of a site ends.</summary>
/// <param name="Sequence">Sequence of the last record; 0 before the first.</param>
/// <param name="Hash">Its hash.</param>
/// <param name="RulesVersion">Version of the rules by which the derived state was made.</param>
public sealed record ChainHead(long Sequence, ChainHash Hash, int RulesVersion);
