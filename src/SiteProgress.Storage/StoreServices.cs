using Microsoft.AspNetCore.DataProtection;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;

namespace SiteProgress.Storage;

/// <summary>Puts the store into a service collection, so that neither pages nor commands name the database library.</summary>
public static class StoreServices
{
    /// <summary>One data source for raw commands, a context factory over it, and the keys of cookies and links kept in it.</summary>
    /// <param name="services">The collection.</param>
    /// <param name="connectionString">How the store is reached.</param>
    public static IServiceCollection AddStore(this IServiceCollection services, string connectionString)
    {
        services.AddSingleton(_ => StoreOptions.DataSource(connectionString));
        services.AddDbContextFactory<SiteProgressDb>((provider, builder) =>
            StoreOptions.Configure(builder, provider.GetRequiredService<NpgsqlDataSource>()));
        services.AddDataProtection().SetApplicationName("SiteProgress").PersistKeysToDbContext<SiteProgressDb>();
        return services;
    }
}
