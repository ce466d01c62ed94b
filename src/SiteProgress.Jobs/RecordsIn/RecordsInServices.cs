using Microsoft.Extensions.DependencyInjection;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>Jobs that bring records in.</summary>
public static class RecordsInServices
{
    /// <summary>Adds upload, preview, recording and withdrawal.</summary>
    /// <param name="services">Services that hold the recorder and what it rests on.</param>
    /// <param name="limits">How much a site may bring in.</param>
    public static IServiceCollection AddRecordsIn(this IServiceCollection services, IntakeLimits limits)
    {
        services.AddSingleton(limits);
        services.AddSingleton<UploadReader>();
        services.AddSingleton<StoreUpload>();
        services.AddSingleton<PreviewUpload>();
        services.AddSingleton<RecordUpload>();
        services.AddSingleton<WithdrawBatch>();
        return services;
    }
}
