using System.Globalization;
using Microsoft.Playwright;

namespace SiteProgress.Bench.Deviations;

/// <summary>
/// The page of deviations over 100,800 installations: from asking for the address until what is shown answers to the person, and until
/// every picture is drawn, in Chromium on the same machine as server and store.
/// </summary>
internal static class DeviationsPageBench
{
    private const double GoalMilliseconds = 1000;

    // Both moments by the page's own clock, which starts when it is asked for.
    private const string Watch =
        """
        globalThis.seen = {};
        seen.done = new Promise(done => { seen.finish = done; });
        const look = () => {
          if (!seen.live && document.body?.dataset.live === 'true') seen.live = performance.now();
          const charts = [...document.querySelectorAll('.chart-place')];
          if (!seen.drawn && charts.length > 0 && charts.every(chart => chart.querySelector('canvas, svg'))) seen.drawn = performance.now();
          if (seen.live && seen.drawn) seen.finish();
        };
        new MutationObserver(look).observe(document, { subtree: true, childList: true, attributes: true });
        """;

    public static async Task<IReadOnlyList<Outcome>> RunAsync(TextWriter output)
    {
        await using LargeSite site = await LargeSite.ServeAsync();
        foreach ((string job, double milliseconds) in await site.JobsAsync()) await output.WriteLineAsync(Text($"{job,-20}{milliseconds,8:0} ms"));
        using IPlaywright playwright = await Playwright.CreateAsync();
        await using IBrowser browser = await playwright.Chromium.LaunchAsync(new() { ExecutablePath = "/usr/bin/chromium", Args = ["--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking"] });
        await using IBrowserContext context = await browser.NewContextAsync(new() { BaseURL = site.Web.Address.ToString(), ViewportSize = new() { Width = 1440, Height = 900 } });
        await context.AddInitScriptAsync(Watch);
        IPage page = await context.NewPageAsync();
        await SignInAsync(page);
        (string What, string Address)[] visits =
        [
            ("everything", $"/sites/{LargeSite.Code}/deviations"),
            ("one casing", $"/sites/{LargeSite.Code}/deviations?barge=Tern&casing=3"),
        ];
        Dictionary<string, List<Visit>> times = visits.ToDictionary(visit => visit.What, _ => new List<Visit>());
        await output.WriteLineAsync(Text($"first visit after the server started {(await VisitAsync(page, visits[0].Address)).Live:0} ms"));
        for (int round = 0; round < Rounds.Counted; round++)
        {
            foreach ((string what, string address) in visits) times[what].Add(await VisitAsync(page, address));
        }

        foreach ((string what, List<Visit> seen) in times)
            await output.WriteLineAsync(Text($"{what,-12} read {Rounds.Median(seen.Select(one => one.Answered)):0} ms, usable {Rounds.Median(seen.Select(one => one.Live)):0} ms, every picture drawn {Rounds.Median(seen.Select(one => one.Drawn)):0} ms"));
        return [new("deviations-page-usable-within-1-s", GoalMilliseconds / Rounds.Median(times[visits[0].What].Select(one => one.Live)), 1)];
    }

    private static async Task<Visit> VisitAsync(IPage page, string address)
    {
        await page.GotoAsync(address);
        // The policy of the page forbids scripts made of text, so that its own promise is waited for.
        double[] seen = await page.EvaluateAsync<double[]>("async () => { await seen.done; return [performance.getEntriesByType('navigation')[0].responseEnd, seen.live, seen.drawn]; }");
        return new Visit(seen[0], seen[1], seen[2]);
    }

    /// <summary>Moments of a visit, milliseconds after the address was asked for.</summary>
    /// <param name="Answered">The page is there to be read.</param>
    /// <param name="Live">It answers to the person.</param>
    /// <param name="Drawn">Every picture is drawn.</param>
    private sealed record Visit(double Answered, double Live, double Drawn);

    private static async Task SignInAsync(IPage page)
    {
        await page.GotoAsync("/sign-in");
        await page.GetByLabel("E-mail address").FillAsync(LargeSite.Surveyor);
        await page.GetByLabel("Password").FillAsync(LargeSite.Password);
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign in" }).ClickAsync();
        await page.WaitForURLAsync(url => !url.Contains("sign-in", StringComparison.Ordinal));
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
