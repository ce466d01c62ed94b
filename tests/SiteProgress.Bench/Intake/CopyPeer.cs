using Npgsql;

namespace SiteProgress.Bench.Intake;

/// <summary>
/// The peer: PostgreSQL's own binary COPY of the very rows that the intake left, into the same tables with the same keys and
/// indexes, in one durable transaction. It reads, matches and judges nothing; it is the floor that the store itself sets.
/// </summary>
internal sealed class CopyPeer
{
    private static readonly string[] Tables = ["record.site_record", "record.upload_chunk", "record.upload", "derived.pile", "derived.installation", "derived.day_production", "derived.batch"];
    private readonly Dictionary<string, byte[]> _rows = [];

    /// <summary>Takes the rows that an intake left: all of the replaced tables, the new ones of the others.</summary>
    public static async Task<CopyPeer> TakeAsync(NpgsqlDataSource after, long recordsBefore)
    {
        CopyPeer peer = new();
        await using NpgsqlConnection connection = await after.OpenConnectionAsync();
        foreach (string table in Tables)
        {
            string source = table switch
            {
                "record.site_record" => $"(select * from record.site_record where sequence > {recordsBefore})",
                "record.upload" => "(select * from record.upload where file_name = 'installed.csv')",
                "record.upload_chunk" => "(select c.* from record.upload_chunk c join record.upload u using (site, upload) where u.file_name = 'installed.csv')",
                "derived.batch" => $"(select * from derived.batch where batch > {recordsBefore})",
                _ => table,
            };
            await using Stream rows = await connection.BeginRawBinaryCopyAsync($"copy {source} to stdout (format binary)");
            using MemoryStream kept = new();
            await rows.CopyToAsync(kept);
            peer._rows[table] = kept.ToArray();
        }

        return peer;
    }

    /// <summary>Copies the rows into a store that has only the planned piles.</summary>
    public async Task RunAsync(NpgsqlDataSource store)
    {
        await using NpgsqlConnection connection = await store.OpenConnectionAsync();
        await using NpgsqlTransaction transaction = await connection.BeginTransactionAsync();
        await using (NpgsqlCommand replaced = new("delete from derived.pile", connection)) await replaced.ExecuteNonQueryAsync();
        foreach (string table in Tables)
        {
            await using NpgsqlRawCopyStream rows = await connection.BeginRawBinaryCopyAsync($"copy {table} from stdin (format binary)");
            await rows.WriteAsync(_rows[table]);
        }

        await transaction.CommitAsync();
    }
}
