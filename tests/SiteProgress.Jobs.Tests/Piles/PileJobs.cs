using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Piles;
using SiteProgress.Storage;

namespace SiteProgress.Jobs.Tests.Piles;

/// <summary>A test site with the jobs on piles.</summary>
internal static class PileJobs
{
    public static Task<TestSite> OpenAsync(JobsDatabase database) => TestSite.OpenAsync(database, services =>
    {
        services.AddDbContextFactory<SiteProgressDb>((provider, builder) => StoreOptions.Configure(builder, provider.GetRequiredService<NpgsqlDataSource>()));
        services.AddTransient<ListPiles>();
        services.AddTransient<ListInstallations>();
        services.AddTransient<ReadPileRecord>();
    });

    public static async Task<TestSite> FilledAsync(JobsDatabase database, int planned, int built)
    {
        TestSite site = await OpenAsync(database);
        await site.RecordAsync(Role.Surveyor, TestSite.PlannedRow(planned));
        if (built > 0) await site.RecordAsync(Role.Surveyor, TestSite.BuiltRow(built));
        return site;
    }
}
