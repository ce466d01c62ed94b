using SiteProgress.Jobs.RecordsIn;
using SiteProgress.Jobs;
using SiteProgress.Jobs.Accounts;
using SiteProgress.Jobs.Recording;
using SiteProgress.Jobs.Sites;
using SiteProgress.Storage;
using SiteProgress.Web.Senders;

namespace SiteProgress.Web.Commands;

/// <summary>What server and commands are put together from, alike.</summary>
internal static class Product
{
    /// <summary>The store, the jobs and the accounts.</summary>
    /// <param name="services">Where they go.</param>
    /// <param name="configuration">Says where the data folder is.</param>
    /// <param name="connectionString">How the store is reached.</param>
    public static IServiceCollection AddProduct(this IServiceCollection services, IConfiguration configuration, string connectionString)
        => services.AddStore(connectionString)
            .AddRecording(Path.Combine(DataFolder(configuration), "chain-heads"))
            .AddSites()
            .AddRecordsIn(configuration.GetSection("Intake").Get<IntakeLimits>() ?? new IntakeLimits())
            .AddSenders(configuration)
            .AddJobs();

    /// <summary>The folder for what is kept outside the store.</summary>
    /// <exception cref="CommandFailedException">It is not set.</exception>
    public static string DataFolder(IConfiguration configuration)
        => configuration["SiteProgress:DataFolder"] is { Length: > 0 } folder
            ? folder
            : throw new CommandFailedException(
                "No data folder: set SiteProgress:DataFolder (environment: SiteProgress__DataFolder), or start with ./run.");
}
