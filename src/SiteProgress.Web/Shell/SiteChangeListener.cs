using System.Data.Common;
using System.Net.Sockets;
using SiteProgress.Jobs.Changes;

namespace SiteProgress.Web.Shell;

/// <summary>
/// Keeps one connection of this node listening for new records. When it breaks the node listens again at once, and goes on from the
/// last sequence it heard of each site; while that fails, it tries again after a pause.
/// </summary>
internal sealed class SiteChangeListener(
    HearRecords hear, SiteChanges changes, TimeProvider time, ILogger<SiteChangeListener> log) : BackgroundService
{
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(1);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        bool told = false;
        Dictionary<int, long> last = [];
        while (!stoppingToken.IsCancellationRequested)
        {
            try
            {
                await hear.ListenAsync(last, notice =>
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
                // Said once for each break, not at every attempt; and the first attempt after a break does not wait.
                if (told) await Task.Delay(Pause, time, stoppingToken).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
                else log.LogWarning("Word of new records stopped ({Kind}); trying again.", broken.GetType().Name);
                told = true;
            }
        }
    }
}
