using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using SiteProgress.Storage;
using SiteProgress.Storage.Derived;
using SiteProgress.Storage.Records;

namespace SiteProgress.Jobs.Recording;

/// <summary>What records need to enter a site, over one store.</summary>
public static class RecordingServices
{
    /// <summary>Adds the recorder and what it rests on.</summary>
    /// <param name="services">Services that hold an <see cref="NpgsqlDataSource"/> and a <see cref="TimeProvider"/>.</param>
    /// <param name="headFolder">Folder outside the store in which chain heads are kept.</param>
    public static IServiceCollection AddRecording(this IServiceCollection services, string headFolder)
    {
        services.AddSingleton(DerivedStoreOfThisVersion());
        services.AddSingleton<IChainHeadKeeper>(new ChainHeadFiles(headFolder));
        services.AddSingleton<PileLogStore>();
        services.AddSingleton<HistoryCache>();
        services.AddSingleton<SiteHistories>();
        services.AddSingleton<UploadStore>();
        services.AddSingleton<SiteRecorder>();
        return services;
    }

    private static DerivedStore DerivedStoreOfThisVersion()
    {
        // The shape of the tables is read from the model alone; no connection is opened.
        using SiteProgressDb db = new DesignTimeFactory().CreateDbContext([]);
        return new DerivedStore(db.Model);
    }
}
