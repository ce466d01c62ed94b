using System.Diagnostics;
using System.Runtime.CompilerServices;
using Microsoft.Playwright;

namespace SiteProgress.Browser.Tests.Map;

/// <summary>A page that holds nothing but the map module, under the strictest content security policy, with answers made by the test.</summary>
internal sealed class MapModulePage : IAsyncDisposable
{
    private const string Site = "http://map.invalid/";
    private readonly IBrowserContext context;
    private string? overlay;

    private MapModulePage(IBrowserContext context, IPage page) => (this.context, Page) = (context, page);

    public IPage Page { get; }

    /// <summary>What the browser complained about: exceptions, breaches of the policy, and addresses asked for elsewhere.</summary>
    public List<string> Complaints { get; } = [];

    /// <summary>The answer to a request for pile data; null: the server fails.</summary>
    public byte[]? PileData { get; set; }

    /// <summary>Opens the map on <paramref name="pileData"/> at an address with <paramref name="query"/>, with an overlay of GeoJSON where one is given.</summary>
    public static async Task<MapModulePage> OpenAsync(IBrowser browser, byte[]? pileData, string query = "", int width = 1200, int height = 800, string? overlay = null)
    {
        var context = await browser.NewContextAsync(new() { ViewportSize = new() { Width = width, Height = height }, ReducedMotion = ReducedMotion.Reduce });
        var opened = new MapModulePage(context, await context.NewPageAsync()) { PileData = pileData, overlay = overlay };
        opened.Page.PageError += (_, error) => opened.Complaints.Add(error);
        opened.Page.Console += (_, message) => { if (message.Text.Contains("Content Security Policy", StringComparison.Ordinal)) opened.Complaints.Add(message.Text); };
        await opened.Page.RouteAsync("**/*", opened.AnswerAsync);
        await opened.Page.GotoAsync(Site + query);
        await opened.Page.Locator("[data-map=ready], [data-map=failed]").WaitForAsync();
        return opened;
    }

    private Task AnswerAsync(IRoute route)
    {
        if (!route.Request.Url.StartsWith(Site, StringComparison.Ordinal))
        {
            Complaints.Add($"asked for {route.Request.Url}");
            return route.AbortAsync();
        }
        var path = new Uri(route.Request.Url).AbsolutePath;
        if (path == "/piles.bin")
            return PileData is null ? route.FulfillAsync(new() { Status = 500 }) : route.FulfillAsync(new() { BodyBytes = PileData });
        if (path.StartsWith("/dist/", StringComparison.Ordinal))
            return route.FulfillAsync(new() { Path = Path.Combine(Bundles.Value, Path.GetFileName(path)) });
        if (path == "/page.js")
            return route.FulfillAsync(new() { ContentType = "text/javascript", Body = PageScript.Replace("OVERLAY", overlay ?? "null", StringComparison.Ordinal) });
        return route.FulfillAsync(new()
        {
            ContentType = "text/html",
            Body = path == "/" ? PageMarkup : $"<!doctype html><title>record</title><p id=record>{System.Net.WebUtility.HtmlEncode(path)}</p>",
            Headers = new Dictionary<string, string> { ["Content-Security-Policy"] = "default-src 'self'; style-src 'self'" },
        });
    }

    private const string PageMarkup = """
        <!doctype html><html lang="en"><title>Map</title><meta name="viewport" content="width=device-width">
        <link rel="stylesheet" href="/dist/map.css"><main id="map"></main><script type="module" src="/page.js"></script></html>
        """;

    private const string PageScript = """
        import { create } from '/dist/map.js';
        const element = document.getElementById('map');
        element.style.height = '760px';
        create(element, { dataUrl: '/piles.bin', pileAddress: '/piles/', overlay: OVERLAY });
        """;

    /// <summary>The folder of the bundles: of the published site where ./test made one, else of the checkout.</summary>
    private static readonly Lazy<string> Bundles = new(() =>
    {
        if (Environment.GetEnvironmentVariable("SITEPROGRESS_WEB_PUBLISHED") is { Length: > 0 } published)
            return Path.Combine(published, "wwwroot", "dist");
        var web = Path.GetFullPath(Path.Combine(SourceFolder(), "../../../src/SiteProgress.Web"));
        using var build = Process.Start(new ProcessStartInfo("node", ["build.mjs"]) { WorkingDirectory = Path.Combine(web, "client") })!;
        build.WaitForExit();
        return build.ExitCode == 0 ? Path.Combine(web, "wwwroot", "dist") : throw new InvalidOperationException("The map's bundles could not be built.");
    });

    private static string SourceFolder([CallerFilePath] string file = "") => Path.GetDirectoryName(file)!;

    public ValueTask DisposeAsync() => context.DisposeAsync();
}
