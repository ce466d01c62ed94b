using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Shouldly;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace SiteProgress.Browser.Tests.MainJob;

/// <summary>A pile by its number from any page, and the view one sees in the address one sends.</summary>
[Collection(ServedSites.Collection)]
public sealed partial class AddressTests(ServedSites sites) : BrowserTest(sites)
{
    [Fact]
    public async Task A_pile_number_typed_on_any_page_leads_to_its_record_in_one_action()
    {
        var visit = await VisitAsync(Person.Manager);
        foreach (var page in await SiteAddresses.PagesAsync(visit))
        {
            if (page == "/account") continue; // A page of the person, not of a site.
            await visit.Page.GotoAsync(page);
            var box = visit.Page.GetByRole(AriaRole.Search).GetByRole(AriaRole.Searchbox);
            await box.FillAsync("b-0267");
            await box.PressAsync("Enter");
            await Expect(visit.Page.GetByRole(AriaRole.Heading, new() { Name = "Pile B-0267" })).ToBeVisibleAsync();
            new Uri(visit.Page.Url).AbsolutePath.ShouldBe($"/sites/{ServedSites.Demo}/piles/B-0267", page);
        }
    }

    [Fact]
    public async Task The_address_of_a_filtered_map_shows_a_colleague_the_same_view()
    {
        var mine = await VisitAsync(Person.Surveyor);
        await mine.GoAsync($"/sites/{ServedSites.Demo}/map");
        await mine.Page.Locator("[data-map=ready]").WaitForAsync();
        await Chip(mine, "states", "finding").ClickAsync();
        await Chip(mine, "barges", "Plover").ClickAsync();
        await mine.Page.GetByRole(AriaRole.Application).PressAsync("+");
        await mine.Page.WaitForURLAsync(url => url.Contains("state=finding", StringComparison.Ordinal) && url.Contains("barge=Plover", StringComparison.Ordinal) && url.Contains("at=", StringComparison.Ordinal));
        var shown = await mine.Page.Locator(".map-total").InnerTextAsync();
        shown.ShouldNotStartWith("0 of");

        var theirs = await VisitAsync(Person.OwnersRepresentative);
        await theirs.GoAsync(mine.Page.Url);
        await theirs.Page.Locator("[data-map=ready]").WaitForAsync();
        await Expect(theirs.Page.Locator(".map-total")).ToHaveTextAsync(shown);
        await Expect(Chip(theirs, "states", "finding")).ToHaveAttributeAsync("aria-pressed", "true");
        await Expect(Chip(theirs, "barges", "Plover")).ToHaveAttributeAsync("aria-pressed", "true");
        await Expect(theirs.Page.Locator(".map-list summary")).ToHaveTextAsync(await mine.Page.Locator(".map-list summary").InnerTextAsync());
    }

    [Fact]
    public async Task The_address_of_filtered_deviations_shows_a_colleague_the_same_figures()
    {
        var mine = await VisitAsync(Person.Surveyor);
        await mine.GoAsync($"/sites/{ServedSites.Demo}/deviations");
        var all = await mine.Page.GetByRole(AriaRole.Main).InnerTextAsync();
        await mine.Page.GetByRole(AriaRole.Main).GetByRole(AriaRole.Link, new() { Name = "Plover", Exact = true }).First.ClickAsync();
        await mine.Page.WaitForURLAsync(url => url.Contains("barge=Plover", StringComparison.Ordinal));
        await mine.LiveAsync();
        await mine.Page.ReloadAsync();
        await mine.LiveAsync();
        var seen = await SettledAsync(mine);
        seen.ShouldNotBe(all);

        var theirs = await VisitAsync(Person.Manager);
        await theirs.GoAsync(mine.Page.Url);
        (await SettledAsync(theirs)).ShouldBe(seen);
    }

    /// <summary>What the page says once its charts are drawn, without the minute in which it was read.</summary>
    private static async Task<string> SettledAsync(Visit visit)
    {
        await Expect(visit.Page.Locator(".chart-place:not([data-chart=ready])")).ToHaveCountAsync(0);
        return ReadAt().Replace(await visit.Page.GetByRole(AriaRole.Main).InnerTextAsync(), "");
    }

    [GeneratedRegex(@"read \d{4}-\d{2}-\d{2} \d{2}:\d{2}")]
    private static partial Regex ReadAt();

    private static ILocator Chip(Visit visit, string group, string name)
        => visit.Page.Locator($".map-group-{group}").GetByRole(AriaRole.Button).Filter(new() { Has = visit.Page.GetByText(name, new() { Exact = true }) });
}
