using System.Text;
using Microsoft.Playwright;
using SiteProgress.TestSupport;
using Xunit;

namespace SiteProgress.Browser.Tests.MainJob;

/// <summary>
/// A test class at the browser. When a test ends, complaints of its visits fail it; when it failed, trace, screenshots, the
/// server's log and the complaints are kept in a folder the failure names.
/// </summary>
public abstract class BrowserTest(ServedSites sites) : IAsyncLifetime
{
    protected const int Desk = 1440;
    protected const int Phone = 390;

    private readonly List<Visit> visits = [];

    protected ServedSites Sites { get; } = sites;

    public ValueTask InitializeAsync()
    {
        Assertions.SetDefaultExpectTimeout(30_000);
        return ValueTask.CompletedTask;
    }

    /// <summary>Opens a browser for a person; for nobody when left out.</summary>
    /// <param name="person">Who is signed in.</param>
    /// <param name="width">Width of the window.</param>
    /// <param name="withoutPolicy">True where the test itself brings scripts or styles into the page.</param>
    /// <param name="served">Address of another web process; left out, the one that all tests share.</param>
    protected async Task<Visit> VisitAsync(Person? person = null, int width = Desk, bool withoutPolicy = false, Uri? served = null)
    {
        var visit = await Visit.OpenAsync(Sites, person, width, width == Phone ? 844 : 900, withoutPolicy, served);
        visits.Add(visit);
        return visit;
    }

    public async ValueTask DisposeAsync()
    {
        GC.SuppressFinalize(this);
        var complaints = visits.SelectMany(visit => visit.Complaints).Distinct().ToList();
        var failed = TestContext.Current.TestState?.Result == TestResult.Failed;
        var kept = failed || complaints.Count > 0 ? await KeepAsync(complaints) : null;
        foreach (var visit in visits) await visit.Context.DisposeAsync();
        if (kept is null) return;
        var told = complaints.Count == 0 ? "" : $"The browser complained:\n{string.Join('\n', complaints)}\n";
        throw new InvalidOperationException($"{told}Trace, screenshots and the server's log are in {kept}");
    }

    private async Task<string> KeepAsync(List<string> complaints)
    {
        var name = new string([.. (TestContext.Current.Test?.TestDisplayName ?? "unknown").Split('.')[^1].Select(letter => char.IsLetterOrDigit(letter) ? letter : '_')]);
        var folder = Path.Combine(Checkout.Folder, "artifacts", "browser-failures", name[..Math.Min(name.Length, 120)]);
        if (Directory.Exists(folder)) Directory.Delete(folder, recursive: true);
        Directory.CreateDirectory(folder);
        await File.WriteAllTextAsync(Path.Combine(folder, "server.log"), Sites.ServerLog);
        await File.WriteAllLinesAsync(Path.Combine(folder, "complaints.txt"), complaints, Encoding.UTF8);
        foreach (var (visit, number) in visits.Select((visit, index) => (visit, index + 1)))
        {
            foreach (var (page, leaf) in visit.Context.Pages.Select((page, index) => (page, index + 1)))
                await page.ScreenshotAsync(new() { Path = Path.Combine(folder, $"visit-{number}-page-{leaf}.png") });
            await visit.Context.Tracing.StopAsync(new() { Path = Path.Combine(folder, $"visit-{number}-trace.zip") });
        }

        return folder;
    }
}
