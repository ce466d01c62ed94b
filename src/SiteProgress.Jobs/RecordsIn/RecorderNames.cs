using Npgsql;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>Names of those who recorded, for people to read. Records hold the account only.</summary>
internal static class RecorderNames
{
    /// <summary>Names by what the records hold; who has no name any more is shown as the record writes them.</summary>
    public static async Task<IReadOnlyDictionary<string, string>> ReadAsync(
        NpgsqlDataSource store, IEnumerable<string?> recorded, CancellationToken cancellation)
    {
        Dictionary<Guid, string> accounts = [];
        foreach (string written in recorded.OfType<string>())
        {
            if (Guid.TryParse(written.AsSpan(written.LastIndexOf(' ') + 1), out Guid account)) accounts[account] = written;
        }

        Dictionary<string, string> names = [];
        if (accounts.Count == 0) return names;
        await using NpgsqlCommand command = store.CreateCommand("""
            select id, display_name from account.account where id = any($1)
            union all
            select key, sender || ' (sender)' from derived.sender_key where key = any($1)
            """);
        command.Parameters.Add(new NpgsqlParameter<Guid[]> { TypedValue = [.. accounts.Keys] });
        await using NpgsqlDataReader reader = await command.ExecuteReaderAsync(cancellation);
        while (await reader.ReadAsync(cancellation)) names[accounts[reader.GetGuid(0)]] = reader.GetString(1);
        return names;
    }
}
