using System.Data.Common;
using System.Net.Sockets;
using SiteProgress.Jobs.Changes;

namespace SiteProgress.Web.Shell;

/// <summary>Keeps one connection listening for new records, and listens again when it breaks.</summary>
internal sealed class SiteChangeListener(
    HearRecords hear, SiteChanges changes, TimeProvider time, ILogger<SiteChangeListener> log) : BackgroundService
{
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(2);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        bool told = false;
        while (!stoppingToken.IsCancellationRequested)
        {
            try
            {
                await hear.ListenAsync(notice =>
                {
                    told = false;
                    changes.Pass(notice);
                }, stoppingToken);
            }
            catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
            {
                return;
            }
            catch (Exception broken) when (broken is DbException or SocketException or IOException)
            {
                // Said once for each break, not at every attempt.
                if (!told) log.LogWarning("Word of new records stopped ({Kind}); trying again.", broken.GetType().Name);
                told = true;
            }

            await Task.Delay(Pause, time, stoppingToken).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }
    }
}
