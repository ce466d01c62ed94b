using Npgsql;
using SiteProgress.Core.Derivation;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;
using SiteProgress.Jobs.Verification;
using SiteProgress.Storage;
using SiteProgress.Storage.Derived;
using SiteProgress.Storage.Records;

namespace SiteProgress.Jobs.Operation;

/// <summary>Brings a store to this version: schema and grants first, then the derived state of sites made by older rules.</summary>
[WithoutPermit("A command of the operator at the machine.")]
public sealed class MigrateStore(DerivedStore derived)
{
    /// <summary>Migrates a store.</summary>
    /// <param name="ownerConnectionString">Connection of the role that owns the store.</param>
    /// <param name="webConnectionString">Connection the web will use.</param>
    /// <param name="say">Is told what was made anew.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>Null, or why the store was left as it was.</returns>
    public async Task<string?> RunAsync(
        string ownerConnectionString, string? webConnectionString, Action<string> say, CancellationToken cancellation)
    {
        if (await StoreMigration.RunAsync(ownerConnectionString, webConnectionString, cancellation) is { } refusal) return refusal;
        await using NpgsqlDataSource owner = StoreOptions.DataSource(ownerConnectionString);
        foreach (string site in await SitesByOlderRulesAsync(owner, cancellation))
        {
            await new RebuildSite(owner, new PileLogStore(owner), derived).RunAsync(site, cancellation);
            say($"Made the derived state of {site} anew, by the rules of this version.");
        }

        return null;
    }

    private static async Task<IReadOnlyList<string>> SitesByOlderRulesAsync(NpgsqlDataSource owner, CancellationToken cancellation)
    {
        await using NpgsqlCommand command = owner.CreateCommand(
            "select s.code from record.site s join derived.site_state t on t.site = s.site where t.rules_version < $1 and t.sequence > 0 order by s.site");
        command.Parameters.AddWithValue(SiteDerivation.RulesVersion);
        await using NpgsqlDataReader reader = await command.ExecuteReaderAsync(cancellation);
        List<string> codes = [];
        while (await reader.ReadAsync(cancellation)) codes.Add(reader.GetString(0));
        return codes;
    }
}
