using System.Text;
using Microsoft.Playwright;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace SiteProgress.Browser.Tests.MainJob;

/// <summary>A pile that is off is replaced by another: it closes when that one is built and accepted, and not before.</summary>
[Collection(ServedSites.Collection)]
public sealed class AdditionalPileTests(ServedSites sites) : BrowserTest(sites)
{
    private const string Site = "additional-pile";
    private const string Planned = "Pile No,Zone,X [m],Y [m],Diameter [m],Top level [m],Tip level [m],Min length [m]\nA-0001,A,1000.000,2000.000,2.00,-12.50,-28.00,15.0\nA-0002,A,1002.100,2000.000,2.00,-12.50,-28.00,15.0\n";
    private const string Head = "Record,Pile No,Barge,Casing,Set-up,Start,End penetration,End,X touch-down [m],Y touch-down [m],X end [m],Y end [m],Top level [m],Tip level [m],Sand in casing [m3],Inclination [deg],Fix,Uncertainty [m],Outcome\n";

    [Fact]
    public async Task The_original_closes_only_when_its_replacement_is_accepted()
    {
        await Sites.OpenSiteAsync(Site, Person.Surveyor, Person.OwnersRepresentative);
        var surveyor = await VisitAsync(Person.Surveyor);
        await SendAsync(surveyor, "planned-piles.csv", Planned);
        // 0.25 m off, where the zone allows 0.15 m.
        await SendAsync(surveyor, "one.csv", Head + Row("T-1", "A-0001", 1000.250, 2000.000, "2026-03-03T12"));
        await ProposeAsync(surveyor);

        var owner = await VisitAsync(Person.OwnersRepresentative);
        await SayAsync(owner, "non-conformances/1", "Decide the proposal", "Approve", "Approved.");
        await owner.GoAsync($"/sites/{Site}/piles/A-0001");
        await Expect(owner.Page.Locator(".page-head")).ToContainTextAsync("non-conformance");
        await Expect(owner.Page.Locator("#treatment")).ToContainTextAsync("Replaced by A-0001-R; it closes when that one is accepted.");

        await SendAsync(surveyor, "two.csv", Head + Row("T-2", "A-0001-R", 1001.060, 2001.050, "2026-03-04T09"));
        await owner.GoAsync($"/sites/{Site}/non-conformances/1");
        await Expect(owner.Page.GetByRole(AriaRole.Form, new() { Name = "Verify the closure" })).ToHaveCountAsync(0);
        await SayAsync(owner, "piles/A-0001-R", "Accept this pile", "Accept", "Accepted.");
        await Expect(owner.Page.GetByRole(AriaRole.Status).GetByRole(AriaRole.Link, new() { Name = "Next pile waiting: A-0001" })).ToBeVisibleAsync();
        await SayAsync(owner, "non-conformances/1", "Verify the closure", "Verify and close", "Closed.");
        await owner.GoAsync($"/sites/{Site}/piles/A-0001");
        await Expect(owner.Page.Locator(".page-head")).ToContainTextAsync("cancelled");
        await owner.GoAsync($"/sites/{Site}/design");
        await Expect(owner.Page.Locator("main")).ToContainTextAsync("3 piles are planned: 2 by schedules, and 1 additional one that a non-conformance put into the design, which no revision below counts.");
    }

    private static async Task ProposeAsync(Visit visit)
    {
        await visit.GoAsync($"/sites/{Site}/non-conformances/new?pile=A-0001");
        await visit.Page.GetByLabel("Why these are gathered").FillAsync("Casing beyond the limit.");
        await visit.Page.GetByRole(AriaRole.Button, new() { Name = "Raise it" }).ClickAsync();
        await Expect(visit.Page.GetByRole(AriaRole.Heading, new() { Name = "Non-conformance 1", Level = 1 })).ToBeVisibleAsync();
        await visit.LiveAsync();
        var form = visit.Page.GetByRole(AriaRole.Form, new() { Name = "Propose a disposition" });
        await form.GetByLabel("Disposition").SelectOptionAsync(new SelectOptionValue { Label = "additional pile" });
        await form.GetByLabel("Number of the additional pile").FillAsync("A-0001-R");
        await form.GetByLabel("Design position, first axis").FillAsync("1001.050");
        await form.GetByLabel("Design position, second axis").FillAsync("2001.050");
        await form.GetByLabel("Why").FillAsync("Closes the gap.");
        await form.GetByRole(AriaRole.Button, new() { Name = "Propose" }).ClickAsync();
        await Expect(visit.Page.Locator(".page-head")).ToContainTextAsync("proposed, waits for a decision");
    }

    private static async Task SayAsync(Visit visit, string page, string form, string button, string done)
    {
        await visit.GoAsync($"/sites/{Site}/{page}");
        var shown = visit.Page.GetByRole(AriaRole.Form, new() { Name = form });
        await shown.GetByRole(AriaRole.Textbox).FillAsync("Looked at it.");
        await shown.GetByRole(AriaRole.Button, new() { Name = button, Exact = true }).ClickAsync();
        // The note may lead on to the next pile that waits, so it is not the whole of its text.
        await Expect(visit.Page.GetByRole(AriaRole.Status).Filter(new() { HasText = done })).ToBeVisibleAsync();
    }

    private static async Task SendAsync(Visit visit, string name, string text)
    {
        await visit.SendAsync(Site, new FilePayload { Name = name, MimeType = "text/csv", Buffer = Encoding.UTF8.GetBytes(text) });
        await visit.RecordAsync();
    }

    private static string Row(string record, string pile, double x, double y, string hour) => FormattableString.Invariant(
        $"{record},{pile},Tern,1,S-1,{hour}:00:00,{hour}:12:00,{hour}:42:00,{x:0.000},{y:0.000},{x:0.000},{y:0.000},-12.40,-28.10,63.7,0.5,RTK fixed,0.04,complete\n");
}
