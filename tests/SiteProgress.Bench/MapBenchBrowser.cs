using Microsoft.Playwright;

namespace SiteProgress.Bench;

/// <summary>One Chromium that shows each contender in a fresh page and drags the map as a hand would.</summary>
public sealed class MapBenchBrowser : IAsyncDisposable
{
    private const string Address = "http://bench.invalid/";
    private const int Moves = 40;
    private readonly IPlaywright playwright;
    private readonly IBrowser browser;
    private readonly MapBenchPages pages;

    private MapBenchBrowser(IPlaywright playwright, IBrowser browser, MapBenchPages pages) =>
        (this.playwright, this.browser, this.pages) = (playwright, browser, pages);

    /// <summary>Version of the browser.</summary>
    public string Version => browser.Version;

    public static async Task<MapBenchBrowser> StartAsync(MapBenchPages pages)
    {
        var playwright = await Playwright.CreateAsync();
        // No SwiftShader flags: with them a canvas is drawn many times slower than any real browser draws it.
        var browser = await playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = "/usr/bin/chromium",
            Args =
            [
                "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
                "--disable-component-update", "--disable-sync",
            ],
        });
        return new MapBenchBrowser(playwright, browser, pages);
    }

    /// <summary>Draws <paramref name="piles"/> piles with one contender and drags them 600 pixels to the left.</summary>
    public async Task<MapMeasurement> MeasureAsync(string contender, int piles)
    {
        await using var context = await browser.NewContextAsync(new() { ViewportSize = new() { Width = 1200, Height = 800 } });
        var page = await context.NewPageAsync();
        await page.RouteAsync(Address + "**", FulfillAsync);
        await page.GotoAsync(Address + "page.html");
        await page.EvaluateAsync("async name => { globalThis.bench = await import(`./${name}.js`); }", contender);
        var paint = await page.EvaluateAsync<double>("piles => bench.firstPaint(piles)", piles);

        await page.Mouse.MoveAsync(900, 400);
        await page.EvaluateAsync("bench.watchFrames()");
        await page.Mouse.DownAsync();
        for (var move = 1; move <= Moves; move++)
        {
            await page.Mouse.MoveAsync(900 - move * 600f / Moves, 400);
            await page.EvaluateAsync("bench.oneFrame()");
        }
        await page.Mouse.UpAsync();
        var frames = await page.EvaluateAsync<double[]>("bench.framesSeen()");
        return new MapMeasurement(paint, frames.Max());
    }

    private Task FulfillAsync(IRoute route)
    {
        var name = Path.GetFileName(new Uri(route.Request.Url).AbsolutePath);
        var type = Path.GetExtension(name) switch { ".html" => "text/html", ".css" => "text/css", _ => "text/javascript" };
        return route.FulfillAsync(new() { BodyBytes = pages.Read(name), ContentType = type });
    }

    public async ValueTask DisposeAsync()
    {
        await browser.DisposeAsync();
        playwright.Dispose();
    }
}
