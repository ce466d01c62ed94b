using SiteProgress.Storage;
using SiteProgress.TestSupport;

namespace SiteProgress.Jobs.Tests;

/// <summary>A migrated, empty store for one test class.</summary>
public sealed class StoreDatabase() : TestDatabase(typeof(SiteProgressDb).Module.ModuleVersionId.ToString(), MigrateAsync)
{
    private static async Task MigrateAsync(MigrationTarget target)
    {
        if (await StoreMigration.RunAsync(target.OwnerConnectionString, target.WebConnectionString, CancellationToken.None) is { } refusal)
            throw new InvalidOperationException(refusal);
    }
}
