using Microsoft.EntityFrameworkCore;
using SiteProgress.Jobs.Access;
using SiteProgress.Storage;

namespace SiteProgress.Jobs.Operation;

/// <summary>Whether the store can be reached and has the schema this version needs.</summary>
[WithoutPermit("It answers a machine that watches the server and reads nothing of a site.")]
public sealed class CheckReadiness(IDbContextFactory<SiteProgressDb> store)
{
    /// <summary>Null when ready, else the reason in words that give nothing away.</summary>
    public async Task<string?> RunAsync(CancellationToken cancellation)
    {
        try
        {
            await using SiteProgressDb db = await store.CreateDbContextAsync(cancellation);
            List<string> known = [.. db.Database.GetMigrations()];
            List<string> applied = [.. await db.Database.GetAppliedMigrationsAsync(cancellation)];
            return known.Except(applied).Any() ? "The store waits for: migrate."
                : applied.Except(known).Any() ? "The store was written by a newer version."
                : null;
        }
        catch (Exception failure) when (StoreFailure.Of(failure) is not null)
        {
            return "The store cannot be reached.";
        }
    }
}
