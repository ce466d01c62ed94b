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
}
