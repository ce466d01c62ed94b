using Microsoft.Playwright;
using Shouldly;
using SiteProgress.Browser.Tests.MainJob;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace SiteProgress.Browser.Tests.Shell;

/// <summary>What happens to a page that is open while its person's role, or its link to the server, goes away.</summary>
[Collection(ServedSites.Collection)]
public sealed class OpenPageTests(ServedSites sites) : BrowserTest(sites)
{
    [Fact]
    public async Task A_role_that_an_administrator_withdraws_closes_the_pages_its_person_has_open()
    {
        const string Code = "withdrawn-role";
        await Sites.OpenSiteAsync(Code, Person.Administrator, Person.Surveyor);
        Visit surveyor = await VisitAsync(Person.Surveyor);
        await surveyor.GoAsync($"/sites/{Code}/people");
        Visit administrator = await VisitAsync(Person.Administrator);
        await administrator.GoAsync($"/sites/{Code}/people");
        ILocator row = administrator.Page.GetByRole(AriaRole.Row).Filter(new() { HasText = Person.Surveyor.Email });
        await row.GetByRole(AriaRole.Button).ClickAsync();
        await Expect(row).ToContainTextAsync("what they recorded and decided stays");

        await row.GetByRole(AriaRole.Button, new() { Name = "Withdraw the role", Exact = true }).ClickAsync();

        await Expect(administrator.Page.GetByText("Withdrawn:")).ToBeVisibleAsync();
        await Expect(row).ToHaveCountAsync(0);
        await Expect(surveyor.Page.GetByRole(AriaRole.Heading, new() { Name = "Nothing here" })).ToBeVisibleAsync();
        surveyor.Foresee(404, $"/sites/{Code}/people");
        (await surveyor.Page.GotoAsync($"/sites/{Code}/people"))!.Status.ShouldBe(404);
    }

    [Fact]
    public async Task A_granted_role_shows_on_every_open_page_of_people_at_once()
    {
        const string Code = "granted-role";
        await Sites.OpenSiteAsync(Code, Person.Administrator, Person.OwnersRepresentative);
        Visit watching = await VisitAsync(Person.OwnersRepresentative);
        await watching.GoAsync($"/sites/{Code}/people");
        await Expect(watching.Page.GetByRole(AriaRole.Button, new() { Name = "Grant" })).ToHaveCountAsync(0);
        Visit administrator = await VisitAsync(Person.Administrator);
        await administrator.GoAsync($"/sites/{Code}/people");
        await administrator.Page.GetByLabel("E-mail address of the account").FillAsync(Person.Manager.Email);
        await administrator.Page.Locator("#grant-role").SelectOptionAsync("ProjectManager");

        await administrator.Page.GetByRole(AriaRole.Button, new() { Name = "Grant" }).ClickAsync();

        await Expect(watching.Page.GetByRole(AriaRole.Cell, new() { Name = "project manager" })).ToBeVisibleAsync();
        (await watching.Page.ContentAsync()).ShouldNotContain(Person.Manager.Email);
    }

    [Fact]
    public async Task A_lost_link_is_told_keeps_what_was_typed_and_comes_back_by_itself()
    {
        Visit visit = await VisitAsync(Person.Administrator);
        IWebSocketRoute? link = null;
        await visit.Context.RouteWebSocketAsync("**/_blazor*", route =>
        {
            link = route;
            route.ConnectToServer();
        });
        await visit.GoAsync($"/sites/{ServedSites.Demo}/people");
        await visit.Page.GetByLabel("E-mail address of the account").FillAsync("half.typed@example");

        await link.ShouldNotBeNull().CloseAsync();

        await Expect(visit.Page.GetByText("The link to the server is lost.")).ToBeVisibleAsync();
        await Expect(visit.Page.Locator("body[data-live]")).ToHaveCountAsync(0);
        await visit.LiveAsync();
        await Expect(visit.Page.GetByLabel("E-mail address of the account")).ToHaveValueAsync("half.typed@example");
        await Expect(visit.Page.GetByText("The link to the server is lost.")).ToBeHiddenAsync();
        visit.ForgiveLostLink();
    }
}
