using System.Collections.Concurrent;
using Microsoft.Playwright;

namespace SiteProgress.Browser.Tests.MainJob;

/// <summary>
/// One person's browser, watched: what the console calls an error, a breach of the content security policy, a request that
/// fails or goes to another host is a complaint, and a complaint fails the test.
/// </summary>
public sealed class Visit
{
    // Refused by the policy or not, a breach is reported to the page itself; the console may keep quiet about it.
    private const string TellBreaches = """
        document.addEventListener('securitypolicyviolation', e => console.error(`breach of the policy: ${e.effectiveDirective} ${e.blockedURI} ${e.sample}`));
        """;

    private static readonly string[] LostLinkWords = ["Connection disconnected", "WebSocket", "transport", "negotiation", "the connection"];

    private readonly ConcurrentQueue<string> complaints = new();
    private readonly HashSet<(int Status, string Path)> foreseen = [];
    private readonly Uri address;

    private Visit(Uri address, IBrowserContext context) => (this.address, Context) = (address, context);

    public IBrowserContext Context { get; }

    public IPage Page { get; private set; } = null!;

    public IReadOnlyCollection<string> Complaints => complaints;

    internal static async Task<Visit> OpenAsync(ServedSites sites, Person? person, int width, int height, bool withoutPolicy, Uri? served = null)
    {
        var address = served ?? sites.Address;
        var context = await sites.Browser.NewContextAsync(new()
        {
            BaseURL = address.ToString(),
            StorageState = person is null ? null : await sites.SessionOfAsync(person),
            ViewportSize = new() { Width = width, Height = height },
            ReducedMotion = ReducedMotion.Reduce,
            Locale = "en-GB",
            BypassCSP = withoutPolicy,
        });
        // How long a failing test is let wait; none that passes waits for time.
        context.SetDefaultTimeout(30_000);
        var visit = new Visit(address, context);
        await context.AddInitScriptAsync(TellBreaches);
        await context.Tracing.StartAsync(new() { Snapshots = true });
        visit.Watch();
        visit.Page = await context.NewPageAsync();
        return visit;
    }

    /// <summary>Foresees that this address answers with an error; any other error stays a complaint.</summary>
    public void Foresee(int status, string path) => foreseen.Add((status, path));

    /// <summary>Forgives what the framework wrote to the console about a link that the test itself cut; all else stays a complaint.</summary>
    public void ForgiveLostLink()
    {
        List<string> kept = [.. complaints.Where(complaint => !LostLinkWords.Any(word => complaint.Contains(word, StringComparison.OrdinalIgnoreCase)))];
        complaints.Clear();
        foreach (var complaint in kept) complaints.Enqueue(complaint);
    }

    /// <summary>Goes to an address of the server and waits until the page's controls answer.</summary>
    public async Task GoAsync(string path)
    {
        await Page.GotoAsync(path);
        await LiveAsync();
    }

    /// <summary>Waits until the page's controls answer.</summary>
    public Task LiveAsync() => Page.Locator("body[data-live=true]").WaitForAsync();

    private void Watch()
    {
        Context.Console += (_, message) =>
        {
            // A failed request is told by its answer below, with its status.
            if (message.Type is "error" or "warning" && !message.Text.StartsWith("Failed to load resource", StringComparison.Ordinal))
                complaints.Enqueue($"console: {message.Text}");
        };
        Context.WebError += (_, error) => complaints.Enqueue($"exception: {error.Error}");
        Context.Request += (_, request) => LookAtHost(request.Url);
        Context.Page += (_, page) => page.WebSocket += (_, socket) => LookAtHost(socket.Url);
        Context.RequestFailed += (_, request) =>
        {
            // What a page was still fetching when it was left, and downloads, end like this.
            if (request.Failure is not "net::ERR_ABORTED") complaints.Enqueue($"request failed: {request.Url} {request.Failure}");
        };
        Context.Response += (_, response) =>
        {
            if (response.Status >= 400 && !foreseen.Contains((response.Status, new Uri(response.Url).AbsolutePath)))
                complaints.Enqueue($"answer {response.Status} to {response.Request.Method} {response.Url}");
        };
    }

    private void LookAtHost(string url)
    {
        var asked = new Uri(url);
        if (asked.Scheme is "http" or "https" or "ws" or "wss" && asked.Authority != address.Authority) complaints.Enqueue($"request to another host: {url}");
    }
}
