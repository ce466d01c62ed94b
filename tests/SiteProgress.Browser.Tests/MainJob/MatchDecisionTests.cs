using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace SiteProgress.Browser.Tests.MainJob;

/// <summary>The demo's swapped numbers decided by the surveyor while the manager's page is open, and put back.</summary>
[Collection(ServedSites.Collection)]
public sealed class MatchDecisionTests(ServedSites sites) : BrowserTest(sites)
{
    private const string Demo = ServedSites.Demo;

    [Fact]
    public async Task A_pattern_is_decided_at_once_the_open_page_of_today_counts_along_and_a_withdrawn_decision_waits_again()
    {
        var manager = await VisitAsync(Person.Manager);
        await manager.GoAsync($"/sites/{Demo}/today");
        var swapped = manager.Page.GetByRole(AriaRole.Row).Filter(new() { HasText = "numbers swapped with another record" });
        await Expect(swapped).ToHaveCountAsync(1);

        var surveyor = await VisitAsync(Person.Surveyor);
        await surveyor.GoAsync($"/sites/{Demo}/matches");
        var group = surveyor.Page.GetByRole(AriaRole.Region, new() { NameRegex = new("^Numbers swapped") });
        var decide = group.GetByRole(AriaRole.Form, new() { Name = "Decide 2 of 2" });
        await decide.GetByRole(AriaRole.Button, new() { Name = "Decide" }).ClickAsync();
        await Expect(surveyor.Page.GetByText("The reason is missing")).ToBeVisibleAsync();
        await decide.GetByLabel("Why, and what it rests on").FillAsync("The logbook of the shift names them the other way round.");
        await decide.GetByRole(AriaRole.Button, new() { Name = "Decide" }).ClickAsync();
        await Expect(surveyor.Page.GetByText("Decided 2. They count from now on.")).ToBeVisibleAsync();
        await Expect(group).ToHaveCountAsync(0);
        await Expect(swapped).ToHaveCountAsync(0);

        var line = surveyor.Page.GetByRole(AriaRole.Row).Filter(new() { HasText = "The logbook of the shift" });
        await line.GetByText("in force; withdraw…").ClickAsync();
        await line.GetByLabel("Why it is withdrawn").FillAsync("Only a trial of the page.");
        await line.GetByRole(AriaRole.Button, new() { Name = "Withdraw" }).ClickAsync();
        await Expect(swapped).ToHaveCountAsync(1);
        await Expect(group).ToHaveCountAsync(1);
    }

    [Theory]
    [InlineData(Desk)]
    [InlineData(Phone)]
    public async Task A_record_chosen_in_the_drawing_is_found_in_the_list_and_the_drawing_shows_what_is_chosen(int width)
    {
        var surveyor = await VisitAsync(Person.Surveyor, width);
        await surveyor.GoAsync($"/sites/{Demo}/matches");
        var group = surveyor.Page.GetByRole(AriaRole.Region, new() { NameRegex = new("^Numbers swapped.*records? of") });
        var mark = group.Locator("svg g.mark").First;
        await Expect(mark).ToHaveAttributeAsync("aria-label", new Regex("^Record of .*: would be "));

        await mark.FocusAsync();
        await surveyor.Page.Keyboard.PressAsync("Enter");
        await Expect(mark).ToHaveAttributeAsync("aria-pressed", "true");
        var line = group.Locator("tr.selected");
        await Expect(line).ToHaveCountAsync(1);
        await Expect(line.GetByRole(AriaRole.Button)).ToBeFocusedAsync();

        await line.GetByRole(AriaRole.Combobox).SelectOptionAsync("");
        await Expect(mark).ToHaveAttributeAsync("aria-label", new Regex(": left waiting$"));

        await group.GetByLabel("All 2 are").SelectOptionAsync("set aside: no pile");
        await Expect(group.GetByRole(AriaRole.Form, new() { Name = "Decide 2 of 2" })).ToBeVisibleAsync();
        await Expect(line.GetByRole(AriaRole.Combobox)).ToHaveValueAsync("SetAside");
    }
}
