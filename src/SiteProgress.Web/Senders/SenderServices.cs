using SiteProgress.Jobs.Senders;

namespace SiteProgress.Web.Senders;

/// <summary>What machines that send need in the server.</summary>
internal static class SenderServices
{
    /// <summary>Adds limits, the door and the look into folders.</summary>
    /// <param name="services">Where they go.</param>
    /// <param name="configuration">Its section <c>Senders</c> holds the limits and the folders.</param>
    public static IServiceCollection AddSenders(this IServiceCollection services, IConfiguration configuration)
    {
        services.AddSingleton(configuration.GetSection("Senders").Get<SenderLimits>() ?? new SenderLimits());
        services.AddSingleton<SenderDoor>();
        services.AddHostedService<FolderWatch>();
        return services;
    }
}
