using System.Collections.Concurrent;
using SiteProgress.Jobs.Changes;

namespace SiteProgress.Web.Shell;

/// <summary>Passes word of new records on to the open pages of this node.</summary>
public sealed class SiteChanges
{
    private readonly ConcurrentDictionary<Subscription, byte> subscriptions = new();

    /// <summary>Calls back at each notice of a site until the subscription is disposed. The call must not block.</summary>
    /// <param name="site">Key of the site.</param>
    /// <param name="changed">Called on any thread.</param>
    public IDisposable Subscribe(int site, Action changed)
    {
        Subscription subscription = new(this, site, changed);
        subscriptions[subscription] = 0;
        return subscription;
    }

    /// <summary>Passes a notice on.</summary>
    public void Pass(RecordNotice notice)
    {
        foreach (Subscription subscription in subscriptions.Keys)
        {
            if (notice.Site == subscription.Site) subscription.Changed();
        }
    }

    /// <summary>How many pages listen.</summary>
    public int Count => subscriptions.Count;

    private sealed class Subscription(SiteChanges owner, int site, Action changed) : IDisposable
    {
        public int Site { get; } = site;

        public Action Changed { get; } = changed;

        public void Dispose() => owner.subscriptions.TryRemove(this, out _);
    }
}
