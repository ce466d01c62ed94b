using System.Text.Json;
using Npgsql;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Jobs.Sites;

/// <summary>Reads the settings in force of a site for jobs that show something.</summary>
internal static class StoredSettings
{
    /// <summary>The settings; null before the site has any.</summary>
    public static async Task<SiteSettings?> ReadAsync(NpgsqlDataSource store, int site, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = store.CreateCommand("select settings::text from derived.site_state where site = $1");
        command.Parameters.AddWithValue(site);
        return await command.ExecuteScalarAsync(cancellation) is string text
            ? JsonSerializer.Deserialize<SiteSettings>(text, RecordJson.Options)
            : null;
    }
}
