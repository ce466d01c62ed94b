using Microsoft.Extensions.DependencyInjection;
using SiteProgress.Jobs.Verification;

namespace SiteProgress.Jobs.Sites;

/// <summary>Jobs on whole sites.</summary>
public static class SiteServices
{
    /// <summary>Adds opening, roles, verification and rebuilding of sites.</summary>
    public static IServiceCollection AddSites(this IServiceCollection services)
    {
        services.AddSingleton<OpenSite>();
        services.AddSingleton<OpenSiteFromFiles>();
        services.AddSingleton<GrantRole>();
        services.AddSingleton<VerifySite>();
        services.AddSingleton<RebuildSite>();
        return services;
    }
}
