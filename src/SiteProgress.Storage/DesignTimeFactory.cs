using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;

namespace SiteProgress.Storage;

/// <summary>Lets <c>dotnet ef</c> add a migration without a running store.</summary>
public sealed class DesignTimeFactory : IDesignTimeDbContextFactory<SiteProgressDb>
{
    /// <inheritdoc />
    public SiteProgressDb CreateDbContext(string[] args)
        => new(StoreOptions.For("Host=design-time-only"));
}
