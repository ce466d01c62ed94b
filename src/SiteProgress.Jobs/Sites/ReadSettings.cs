using System.Text.Json;
using Npgsql;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;

namespace SiteProgress.Jobs.Sites;

/// <summary>The settings of a site in force.</summary>
public sealed class ReadSettings(NpgsqlDataSource store)
{
    /// <summary>The settings; null before the site was opened.</summary>
    [Needs(Right.See)]
    public async Task<SiteSettings?> RunAsync(Permit permit, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        return await InForceAsync(store, permit.Site, cancellation);
    }

    internal static async Task<SiteSettings?> InForceAsync(NpgsqlDataSource store, int site, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = store.CreateCommand("select settings::text from derived.site_state where site = $1");
        command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = site });
        return await command.ExecuteScalarAsync(cancellation) is string text
            ? JsonSerializer.Deserialize<SiteSettings>(text, RecordJson.Options)
            : null;
    }
}
