using Microsoft.Playwright;
using Xunit;

namespace SiteProgress.Browser.Tests.Map;

/// <summary>One Chromium for all tests of the map module.</summary>
public sealed class MapBrowser : IAsyncLifetime
{
    private IPlaywright? playwright;

    public IBrowser Browser { get; private set; } = null!;

    public async ValueTask InitializeAsync()
    {
        playwright = await Playwright.CreateAsync();
        Browser = await playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = "/usr/bin/chromium",
            Args =
            [
                "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
                "--disable-component-update", "--disable-sync",
            ],
        });
    }

    public async ValueTask DisposeAsync()
    {
        await Browser.DisposeAsync();
        playwright?.Dispose();
    }
}
