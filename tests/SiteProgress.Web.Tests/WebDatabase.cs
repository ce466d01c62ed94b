using SiteProgress.Storage;
using SiteProgress.TestSupport;

namespace SiteProgress.Web.Tests;

/// <summary>A migrated database of its own for a test class.</summary>
public sealed class WebDatabase() : TestDatabase(
    typeof(SiteProgressDb).Module.ModuleVersionId.ToString(),
    async target =>
    {
        string? refusal = await StoreMigration.RunAsync(target.OwnerConnectionString, target.WebConnectionString, CancellationToken.None);
        if (refusal is not null) throw new InvalidOperationException(refusal);
    });
