using Npgsql;
using SiteProgress.Jobs.Accounts;

namespace SiteProgress.Jobs.Access;

/// <summary>
/// The one maker of proofs for machines. It reads the key from the store at every call, so a key withdrawn a moment ago no
/// longer opens anything.
/// </summary>
[WithoutPermit("It makes the proof.")]
public sealed class SenderGate(NpgsqlDataSource store, TimeProvider time)
{
    /// <summary>What a sender's key begins with, so that one left lying in a file can be recognised.</summary>
    public static string Prefix => "sps_";

    /// <summary>
    /// A permit for the holder of this key on this site; null where the key is unknown, withdrawn or of another site, or the site
    /// does not exist: the answers cannot be told apart from outside.
    /// </summary>
    public async Task<SenderPermit?> EnterAsync(string siteCode, string key, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(key);
        if (!key.StartsWith(Prefix, StringComparison.Ordinal) || Secret.HashOf(key[Prefix.Length..]) is not { } hash) return null;
        await using NpgsqlConnection connection = await store.OpenConnectionAsync(cancellation);
        SenderPermit? permit = await FindAsync(
            connection,
            """
            select s.site, s.code, k.key, k.sender, k.barges
            from account.sender_secret x
            join record.site s on s.site = x.site
            join derived.sender_key k on k.site = x.site and k.key = x.key
            where x.hash = $2 and s.code = $1 and k.withdrawn_at is null
            """,
            siteCode, hash, cancellation);
        if (permit is not null) await NoteUseAsync(connection, hash, cancellation);
        return permit;
    }

    /// <summary>A permit for a sender the operator named for a watched folder; null where no key of the sender works.</summary>
    public async Task<SenderPermit?> EnterForFolderAsync(string siteCode, string sender, CancellationToken cancellation)
    {
        await using NpgsqlConnection connection = await store.OpenConnectionAsync(cancellation);
        return await FindAsync(
            connection,
            """
            select s.site, s.code, k.key, k.sender, k.barges
            from record.site s join derived.sender_key k on k.site = s.site
            where s.code = $1 and k.sender = $2 and k.withdrawn_at is null
            order by k.sequence desc limit 1
            """,
            siteCode, sender, cancellation);
    }

    private static async Task<SenderPermit?> FindAsync(NpgsqlConnection connection, string sql, string siteCode, object what, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = new(sql, connection);
        command.Parameters.AddWithValue(siteCode);
        command.Parameters.AddWithValue(what);
        await using NpgsqlDataReader reader = await command.ExecuteReaderAsync(cancellation);
        return await reader.ReadAsync(cancellation)
            ? new SenderPermit(reader.GetInt32(0), reader.GetString(1), reader.GetGuid(2), reader.GetString(3), reader.GetFieldValue<string[]>(4))
            : null;
    }

    /// <summary>Kept to the minute: a sender that sends every few seconds need not write as often.</summary>
    private async Task NoteUseAsync(NpgsqlConnection connection, byte[] hash, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = new(
            "update account.sender_secret set last_used = $2 where hash = $1 and (last_used is null or last_used < $2 - interval '1 minute')", connection);
        command.Parameters.AddWithValue(hash);
        command.Parameters.AddWithValue(time.GetUtcNow());
        await command.ExecuteNonQueryAsync(cancellation);
    }
}
