using System.IO.Compression;
using Npgsql;
using NpgsqlTypes;
using SiteProgress.Core.Logs;

namespace SiteProgress.Storage.Records;

/// <summary>
/// Samples of recorded logs: a row a log, its columns as deflated canonical bytes, under the hash that the record names. What
/// is kept is never changed; the same log kept again is kept once.
/// </summary>
public sealed class PileLogStore(NpgsqlDataSource store)
{
    /// <summary>Longest log given back, bytes unpacked: no hostile row may fill the memory.</summary>
    private const int MostBytes = 256 << 20;

    /// <summary>Keeps logs, all or none.</summary>
    /// <param name="site">Key of the site.</param>
    /// <param name="logs">Logs by the hash of their canonical bytes.</param>
    /// <param name="cancellation">Stops the work.</param>
    public async Task KeepAsync(int site, IReadOnlyDictionary<string, PileLog> logs, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(logs);
        if (logs.Count == 0) return;
        await using NpgsqlConnection connection = await store.OpenConnectionAsync(cancellation);
        await using NpgsqlTransaction transaction = await connection.BeginTransactionAsync(cancellation);
        foreach ((string sha256, PileLog log) in logs)
        {
            await using NpgsqlCommand command = new(
                "insert into record.log_samples (site, sha256, packed) values ($1, $2, $3) on conflict do nothing", connection);
            command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = site });
            command.Parameters.Add(new NpgsqlParameter<string> { TypedValue = sha256 });
            command.Parameters.Add(new NpgsqlParameter { Value = Pack(LogBytes.Write(log)), NpgsqlDbType = NpgsqlDbType.Bytea });
            await command.ExecuteNonQueryAsync(cancellation);
        }

        await transaction.CommitAsync(cancellation);
    }

    /// <summary>The canonical bytes under a hash; null where there are none.</summary>
    /// <exception cref="InvalidDataException">What stands there was not packed by this store.</exception>
    public byte[]? FindBytes(int site, string sha256)
    {
        using NpgsqlCommand command = store.CreateCommand("select packed from record.log_samples where site = $1 and sha256 = $2");
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = site });
        command.Parameters.Add(new NpgsqlParameter<string> { TypedValue = sha256 });
        return command.ExecuteScalar() is byte[] packed ? Unpack(packed) : null;
    }

    /// <summary>The logs of a site for whoever reads them: one row is fetched a log.</summary>
    public ILogShelf ShelfOf(int site) => new Shelf(this, site);

    private static byte[] Pack(byte[] bytes)
    {
        using MemoryStream packed = new();
        using (DeflateStream deflate = new(packed, CompressionLevel.Optimal)) deflate.Write(bytes);
        return packed.ToArray();
    }

    private static byte[] Unpack(byte[] packed)
    {
        using MemoryStream source = new(packed);
        using DeflateStream inflate = new(source, CompressionMode.Decompress);
        using MemoryStream bytes = new(packed.Length * 3);
        byte[] piece = new byte[1 << 15];
        while (inflate.Read(piece) is > 0 and var read)
        {
            if (bytes.Length + read > MostBytes) throw new InvalidDataException("A kept log is longer than any that is kept.");
            bytes.Write(piece, 0, read);
        }

        return bytes.ToArray();
    }

    private sealed class Shelf(PileLogStore logs, int site) : ILogShelf
    {
        public PileLog? Find(string sha256) => logs.FindBytes(site, sha256) is { } bytes ? LogBytes.Read(bytes) : null;
    }
}
