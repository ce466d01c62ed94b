using System.Text;
using Microsoft.Playwright;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace SiteProgress.Browser.Tests.MainJob;

/// <summary>A sand account over the limit is treated like any finding: gathered from its page, proposed, decided by another person.</summary>
[Collection(ServedSites.Collection)]
public sealed class SandAccountTests(ServedSites sites) : BrowserTest(sites)
{
    private const string Site = "sand-account";

    // 300 m3 came to Tern in a week in which no pile was built: all of it is missing from the piles.
    private const string Account = "Time,Entry,Ticket,Sand source,Barge,Volume [m3]\n2026-03-02T06:00+01:00,stock,,Long Shoal,Tern,100.0\n2026-03-03T06:00+01:00,delivered,S-2,Long Shoal,Tern,300.0\n2026-03-09T06:00+01:00,stock,,Long Shoal,Tern,100.0\n";

    [Fact]
    public async Task An_account_over_the_limit_is_gathered_proposed_and_decided()
    {
        await Sites.OpenSiteAsync(Site, Person.Surveyor, Person.OwnersRepresentative);
        var surveyor = await VisitAsync(Person.Surveyor);
        await surveyor.SendAsync(Site, new FilePayload { Name = "sand-deliveries.csv", MimeType = "text/csv", Buffer = Encoding.UTF8.GetBytes(Account) });
        await surveyor.RecordAsync();
        await surveyor.GoAsync($"/sites/{Site}/sand");
        await surveyor.Page.GetByRole(AriaRole.Link, new() { Name = "gather", Exact = true }).ClickAsync();
        await Expect(surveyor.Page.GetByRole(AriaRole.Heading, new() { Name = "Gather findings into a non-conformance" })).ToBeVisibleAsync();
        await surveyor.LiveAsync();
        await surveyor.Page.GetByLabel("Tern, Long Shoal").CheckAsync();
        await surveyor.Page.GetByLabel("Why these are gathered").FillAsync("No pile took this sand.");
        await surveyor.Page.GetByRole(AriaRole.Button, new() { Name = "Raise it" }).ClickAsync();
        await Expect(surveyor.Page.GetByRole(AriaRole.Heading, new() { Name = "Non-conformance 1", Level = 1 })).ToBeVisibleAsync();
        await surveyor.LiveAsync();

        var form = surveyor.Page.GetByRole(AriaRole.Form, new() { Name = "Propose a disposition" });
        await Expect(form.GetByLabel("Disposition").Locator("option")).ToHaveTextAsync(["use as is (concession)", "repair in place"]);
        await form.GetByLabel("Designer's reference").FillAsync("Tally 7");
        await form.GetByLabel("Why").FillAsync("It lies on the seabed as a blanket.");
        await form.GetByRole(AriaRole.Button, new() { Name = "Propose" }).ClickAsync();
        await Expect(surveyor.Page.Locator(".page-head")).ToContainTextAsync("proposed, waits for a decision");

        var owner = await VisitAsync(Person.OwnersRepresentative);
        await owner.GoAsync($"/sites/{Site}/non-conformances/1");
        var decision = owner.Page.GetByRole(AriaRole.Form, new() { Name = "Decide the proposal" });
        await decision.GetByLabel("Comment").FillAsync("Agreed on the tally.");
        await decision.GetByRole(AriaRole.Button, new() { Name = "Approve" }).ClickAsync();
        await Expect(owner.Page.Locator(".page-head")).ToContainTextAsync("closed");
        await owner.GoAsync($"/sites/{Site}/sand");
        await Expect(owner.Page.GetByRole(AriaRole.Link, new() { Name = "non-conformance 1" })).ToBeVisibleAsync();
        await Expect(owner.Page.GetByRole(AriaRole.Link, new() { Name = "gather", Exact = true })).ToHaveCountAsync(0);
    }
}
