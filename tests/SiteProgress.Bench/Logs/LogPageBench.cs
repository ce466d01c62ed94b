using System.Globalization;
using System.Text;
using Microsoft.Playwright;
using SiteProgress.Bench.Intake;
using SiteProgress.DemoGenerator;
using SiteProgress.DemoGenerator.Logs;
using SiteProgress.TestSupport;

namespace SiteProgress.Bench.Logs;

/// <summary>
/// The page of a pile with a log of 3,600 samples on the demonstration's site: from asking for the address until the chart is drawn, in
/// Chromium on the same machine as server and store; beside it a pile without a log.
/// </summary>
internal static class LogPageBench
{
    private const int Samples = 3600;
    private const double GoalMilliseconds = 1000;
    private const string Surveyor = "surveyor@sandlark.invalid", Password = "nine-geese-over-the-mole", WithoutLog = "A-0007";

    // By the page's own clock, which starts when it is asked for.
    private const string Watch =
        """
        globalThis.seen = {};
        seen.done = new Promise(done => { seen.finish = done; });
        const look = () => {
          if (!seen.live && document.body?.dataset.live === 'true') seen.live = performance.now();
          const place = document.querySelector('.log-place');
          if (!seen.drawn && (place ? place.querySelectorAll('canvas').length > 3 : seen.live)) seen.drawn = performance.now();
          if (seen.live && seen.drawn) seen.finish();
        };
        new MutationObserver(look).observe(document, { subtree: true, childList: true, attributes: true });
        """;

    public static async Task<IReadOnlyList<Outcome>> RunAsync(TextWriter output)
    {
        CommandResult published = await Command.RunAsync("bash", ["-c", "eval \"$(scripts/publish.sh)\"; printf %s \"$SITEPROGRESS_WEB_PUBLISHED\""], folder: Checkout.Folder);
        Environment.SetEnvironmentVariable("SITEPROGRESS_WEB_PUBLISHED", published.Output.Trim());
        string database = "log_page_" + Guid.NewGuid().ToString("N");
        await IntakeStore.CommandAsync("postgres", $"create database {database} owner {TestCluster.OwnerAccount}");
        await IntakeStore.CommandAsync(database, "create extension postgis");
        MigrationTarget target = new(TestCluster.ConnectionString(database, TestCluster.OwnerAccount), TestCluster.ConnectionString(database, TestCluster.WebAccount));
        Dictionary<string, string> settings = new()
        {
            ["SiteProgress__DataFolder"] = Directory.CreateTempSubdirectory("siteprogress-log-page-").FullName, ["SiteProgress__PrivateCluster"] = "true", ["SITEPROGRESS_DEMO_PASSWORD"] = Password,
        };
        await PublishedWeb.MigrateAsync(target);
        await PublishedWeb.RunAsync(target, ["load-demo", Path.Combine(Checkout.Folder, "seed-data")], settings);
        await using PublishedWeb web = await PublishedWeb.StartAsync(target, settings);
        using IPlaywright playwright = await Playwright.CreateAsync();
        await using IBrowser browser = await playwright.Chromium.LaunchAsync(new() { ExecutablePath = "/usr/bin/chromium", Args = ["--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking"] });
        await using IBrowserContext context = await browser.NewContextAsync(new() { BaseURL = web.Address.ToString(), ViewportSize = new() { Width = 1440, Height = 900 } });
        await context.AddInitScriptAsync(Watch);
        IPage page = await context.NewPageAsync();
        await SignInAsync(page);
        (string pile, int samples, byte[] file) = LongLog();
        await BringInAsync(page, file);
        (string What, string Pile)[] visits = [("log", pile), ("no log", WithoutLog)];
        Dictionary<string, List<double[]>> times = visits.ToDictionary(visit => visit.What, _ => new List<double[]>());
        foreach ((_, string number) in visits) await VisitAsync(page, number);
        for (int round = 0; round < Rounds.Counted; round++)
        {
            foreach ((string what, string number) in visits) times[what].Add(await VisitAsync(page, number));
        }

        foreach ((string what, List<double[]> seen) in times)
            await output.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"{what,-7} {(what == "log" ? samples : 0),5} samples: read {Rounds.Median(seen.Select(one => one[0])):0} ms, usable {Rounds.Median(seen.Select(one => one[1])):0} ms, drawn {Rounds.Median(seen.Select(one => one[2])):0} ms"));
        return [new("log-page-drawn-within-1-s", GoalMilliseconds / Rounds.Median(times["log"].Select(one => one[2])), 1)];
    }

    /// <summary>The first log of the demonstration's last day again, sampled until it has so many samples: recorded later, it counts.</summary>
    private static (string Pile, int Samples, byte[] File) LongLog()
    {
        SiteLog log = new DemoSite(DemoSite.StandardSeed).Logs.Last(one => one.Of.Barge.Name == "Tern" && one.Fault is null);
        double seconds = log.Made.Seconds[^1];
        MadeLog made = MadeLog.Make(log.Made.Design, log.Made.Gauges with { Spacing = seconds / Samples }, ChanceSource.For(7, "log page"));
        StringBuilder text = new("Time,Pile No,Barge,Casing,Casing tip level [m],Sand above tip [m],Air pressure [kPa],Hammer load,Inclination X [deg],Inclination Y [deg],Charge [m3],Valve open,Water level [m]\n");
        for (int index = 0; index < Math.Min(made.Seconds.Count, Samples); index++)
        {
            text.Append(CultureInfo.InvariantCulture,
                $"{log.FirstSample.AddSeconds(made.Seconds[index]):yyyy-MM-dd'T'HH:mm:ss.fff'Z'},{log.Of.RecordedPile},Tern,{log.Of.Casing},{made.Tip[index]:0.00},{made.Sand[index]:0.00},{made.Air[index]:0},{made.Hammer[index]:0},"
                + $"{made.InclinationX[index]:0.00},{made.InclinationY[index]:0.00},{made.Charge[index]:0.00},{made.Valve[index]:0},{made.Water[index]:0.00}\n");
        }

        return (log.Of.RecordedPile, Math.Min(made.Seconds.Count, Samples), Encoding.UTF8.GetBytes(text.ToString()));
    }

    private static async Task BringInAsync(IPage page, byte[] file)
    {
        await page.GotoAsync("/sites/sandlark/records-in");
        await page.Locator("body[data-live=true]").WaitForAsync();
        await page.Locator("input[type=file]").SetInputFilesAsync(new FilePayload { Name = "long-log.csv", MimeType = "text/csv", Buffer = file });
        await page.GetByRole(AriaRole.Button, new() { Name = "Send and look at it" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { NameRegex = new("^Record .* rows?$") }).ClickAsync();
        await page.GetByText("Recorded:").WaitForAsync();
    }

    private static async Task<double[]> VisitAsync(IPage page, string pile)
    {
        await page.GotoAsync($"/sites/sandlark/piles/{pile}");
        // The policy of the page forbids scripts made of text, so that its own promise is waited for.
        return await page.EvaluateAsync<double[]>("async () => { await seen.done; return [performance.getEntriesByType('navigation')[0].responseEnd, seen.live, seen.drawn]; }");
    }

    private static async Task SignInAsync(IPage page)
    {
        await page.GotoAsync("/sign-in");
        await page.GetByLabel("E-mail address").FillAsync(Surveyor);
        await page.GetByLabel("Password").FillAsync(Password);
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign in" }).ClickAsync();
        await page.WaitForURLAsync(url => !url.Contains("sign-in", StringComparison.Ordinal));
    }
}
