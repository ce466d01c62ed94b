using Microsoft.Playwright;

namespace SiteProgress.Browser.Tests.MainJob;

/// <summary>Debian's Chromium without a window. A missing one fails the tests, it does not skip them.</summary>
internal static class Chromium
{
    private const string Program = "/usr/bin/chromium";

    // Software GL is left alone on purpose: with it the map's canvas is many times slower.
    private static readonly string[] Arguments =
    [
        "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update",
        "--disable-sync",
    ];

    public static Task<IBrowser> LaunchAsync(IPlaywright playwright) => File.Exists(Program)
        ? playwright.Chromium.LaunchAsync(new() { ExecutablePath = Program, Args = Arguments })
        : throw new InvalidOperationException($"{Program} is missing, so pages cannot be tested: install Debian's package chromium, as ./test does.");
}
