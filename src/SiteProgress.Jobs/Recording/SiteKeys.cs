using Npgsql;

namespace SiteProgress.Jobs.Recording;

/// <summary>Finds a site by its code, for commands of the operator.</summary>
internal static class SiteKeys
{
    public static async Task<int?> FindAsync(NpgsqlConnection connection, string siteCode, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = new("select site from record.site where code = $1", connection);
        command.Parameters.AddWithValue(siteCode);
        return await command.ExecuteScalarAsync(cancellation) as int?;
    }

    public static async Task<IReadOnlyList<string>> AllAsync(NpgsqlConnection connection, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = new("select code from record.site order by site", connection);
        await using NpgsqlDataReader reader = await command.ExecuteReaderAsync(cancellation);
        List<string> codes = [];
        while (await reader.ReadAsync(cancellation)) codes.Add(reader.GetString(0));
        return codes;
    }
}
