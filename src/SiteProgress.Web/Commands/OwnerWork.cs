using SiteProgress.Jobs.Accounts;

namespace SiteProgress.Web.Commands;

/// <summary>Work of the operator with the owner's connection, for what the web's own role may not do.</summary>
internal sealed class OwnerWork(ServiceProvider provider) : IAsyncDisposable
{
    public IServiceProvider Services { get; } = provider.CreateScope().ServiceProvider;

    public static OwnerWork Begin(CommandCall call)
    {
        ServiceCollection services = new();
        services.AddSingleton(call.Configuration);
        services.AddLogging(logging => logging.SetMinimumLevel(LogLevel.Warning).AddConsole(console =>
            console.LogToStandardErrorThreshold = LogLevel.Trace));
        services.AddProduct(call.Configuration, call.ConnectionString("Owner"));
        services.AddAccounts();
        return new OwnerWork(services.BuildServiceProvider());
    }

    public ValueTask DisposeAsync() => provider.DisposeAsync();
}
