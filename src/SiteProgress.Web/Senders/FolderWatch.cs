using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Operation;
using SiteProgress.Jobs.Senders;

namespace SiteProgress.Web.Senders;

/// <summary>Looks every few seconds into the folders in which machines leave files.</summary>
internal sealed class FolderWatch(TakeFromFolder taker, SenderLimits limits, TimeProvider time, ILogger<FolderWatch> log) : BackgroundService
{
    private static readonly TimeSpan Interval = TimeSpan.FromSeconds(3);

    protected override Task ExecuteAsync(CancellationToken stoppingToken)
        => Task.WhenAll(limits.Folders.Select(folder => WatchAsync(folder, stoppingToken)));

    private async Task WatchAsync(WatchedFolder folder, CancellationToken stopping)
    {
        SeenFiles seen = new();
        using PeriodicTimer timer = new(Interval, time);
        bool told = false;
        try
        {
            do
            {
                told = await LookAsync(folder, seen, told, stopping);
            }
            while (await timer.WaitForNextTickAsync(stopping));
        }
        catch (OperationCanceledException) when (stopping.IsCancellationRequested)
        {
            // The server ends.
        }
    }

    private async Task<bool> LookAsync(WatchedFolder folder, SeenFiles seen, bool told, CancellationToken stopping)
    {
        try
        {
            foreach (string name in await taker.LookAsync(folder, seen, stopping)) log.LogInformation("Dealt with {File} of {Sender}.", name, folder.Sender);
            return false;
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException or AccessWithdrawnException || StoreFailure.Of(failure) is not null)
        {
            // Said once for each trouble; the files stay where they are and the next look tries again.
            if (!told) log.LogWarning("The folder of {Sender} could not be dealt with ({Kind}); trying again.", folder.Sender, failure.GetType().Name);
            return true;
        }
    }
}
