using System.Diagnostics;
using Microsoft.Playwright;
using Shouldly;
using Xunit;
using static Microsoft.Playwright.Assertions;
using static SiteProgress.Browser.Tests.MainJob.RecordsInSteps;

namespace SiteProgress.Browser.Tests.MainJob;

/// <summary>Pages that stay open while others work.</summary>
[Collection(ServedSites.Collection)]
public sealed class LiveTests(ServedSites sites) : BrowserTest(sites)
{
    [Fact]
    public async Task What_one_browser_records_shows_on_anothers_open_pages_until_their_role_is_withdrawn()
    {
        const string site = "live";
        await Sites.OpenSiteAsync(site, Person.Manager, Person.Surveyor, Person.Administrator);
        var today = await OpenAsync(Person.Surveyor, site, "today");
        var map = await OpenAsync(Person.Surveyor, site, "map");
        var list = await OpenAsync(Person.Surveyor, site, "records-in");
        var manager = await VisitAsync(Person.Manager);

        await manager.SendAsync(site, Seed("planned-piles-zone-c.csv"));
        await manager.RecordAsync();
        var planned = Shown(File.ReadLines(ServedSites.SeedFile("planned-piles-zone-c.csv")).Count() - 1);
        await Expect(today.Page.GetByRole(AriaRole.Table, new() { Name = "Piles by state" })).ToContainTextAsync(planned);
        await Expect(map.Page.Locator(".map-total")).ToContainTextAsync($"of {planned} piles shown");
        await Expect(list.Page.GetByRole(AriaRole.Link, new() { Name = "planned-piles-zone-c.csv" })).ToBeVisibleAsync();
        foreach (var visit in new[] { today, map, list }) (await visit.Page.EvaluateAsync<bool>("window.notReadAnew === true")).ShouldBeTrue();

        await WithdrawAsync(site, "Demo surveyor");
        foreach (var visit in new[] { today, map })
        {
            await Expect(visit.Page.GetByRole(AriaRole.Main)).Not.ToContainTextAsync(planned);
            (await visit.Page.EvaluateAsync<bool>("window.notReadAnew === true")).ShouldBeTrue();
        }

        await manager.SendAsync(site, Seed("planned-piles-zone-a.csv"));
        await manager.RecordAsync();
        await Expect(list.Page.GetByText("This list can no longer be shown")).ToBeVisibleAsync();
        await Expect(list.Page.GetByRole(AriaRole.Main)).Not.ToContainTextAsync("planned-piles-zone-a.csv");
        today.Foresee(404, $"/sites/{site}/piles/C-0001");
        await today.Page.GotoAsync($"/sites/{site}/piles/C-0001");
        await Expect(today.Page.GetByRole(AriaRole.Main)).Not.ToContainTextAsync("C-0001");
    }

    [Fact]
    public async Task New_records_show_on_open_pages_of_two_web_processes_before_and_after_their_listening_was_cut()
    {
        const string site = "live-twice";
        await Sites.OpenSiteAsync(site, Person.Manager, Person.Surveyor);
        await using var other = await Sites.StartAnotherAsync();
        var here = await OpenAsync(Person.Surveyor, site, "records-in");
        var there = await OpenAsync(Person.Surveyor, site, "records-in", other.Address);
        var manager = await VisitAsync(Person.Manager);

        await ShowsOnBothAsync("planned-piles-zone-c.csv", "before the cut");
        (await Sites.CutListenersAsync()).ShouldBeGreaterThanOrEqualTo(2);
        await ShowsOnBothAsync("planned-piles-zone-a.csv", "after the cut");
        // The second process ends with this test; an open page would complain of its lost link.
        await there.Page.GotoAsync("about:blank");

        async Task ShowsOnBothAsync(string file, string when)
        {
            await manager.SendAsync(site, Seed(file));
            await manager.RecordAsync();
            var recorded = Stopwatch.GetTimestamp();
            foreach (var visit in new[] { here, there })
            {
                await Expect(visit.Page.GetByRole(AriaRole.Link, new() { Name = file })).ToBeVisibleAsync();
                (await visit.Page.EvaluateAsync<bool>("window.notReadAnew === true")).ShouldBeTrue();
            }

            // Said, never asserted: how long it takes is the machine's affair.
            TestContext.Current.TestOutputHelper?.WriteLine($"{when}: on both pages {Stopwatch.GetElapsedTime(recorded).TotalSeconds:0.00} s after the recording was answered");
        }
    }

    /// <summary>Opens a page and leaves a mark in it that reading it anew would wipe out.</summary>
    private async Task<Visit> OpenAsync(Person person, string site, string page, Uri? served = null)
    {
        var visit = await VisitAsync(person, served: served);
        await visit.GoAsync($"/sites/{site}/{page}");
        await visit.Page.EvaluateAsync("window.notReadAnew = true");
        return visit;
    }

    private async Task WithdrawAsync(string site, string name)
    {
        var administrator = await VisitAsync(Person.Administrator);
        await administrator.GoAsync($"/sites/{site}/people");
        await administrator.Page.GetByRole(AriaRole.Button, new() { Name = $"Withdraw the role of {name}" }).ClickAsync();
        await administrator.Page.GetByRole(AriaRole.Button, new() { Name = "Withdraw the role", Exact = true }).ClickAsync();
        await Expect(administrator.Page.GetByRole(AriaRole.Row).Filter(new() { HasText = name })).ToHaveCountAsync(0);
    }
}
