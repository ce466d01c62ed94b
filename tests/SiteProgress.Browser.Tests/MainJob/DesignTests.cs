using System.Text;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Shouldly;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace SiteProgress.Browser.Tests.MainJob;

/// <summary>The design at the browser: laid out, revised, seen as a difference, and decided where something was built before.</summary>
[Collection(ServedSites.Collection)]
public sealed partial class DesignTests(ServedSites sites) : BrowserTest(sites)
{
    private const string Head = "Pile No,Zone,X [m],Y [m],Diameter [m],Top level [m],Tip level [m],Min length [m]\n";
    private const string BuiltHead = "Record,Pile No,Barge,Casing,Set-up,Start,End penetration,End,X touch-down [m],Y touch-down [m],X end [m],Y end [m],Top level [m],Tip level [m],Sand in casing [m3],Inclination [deg],Fix,Uncertainty [m],Outcome\n";

    [Fact]
    public async Task A_layout_is_sent_in_looked_at_and_recorded_and_a_wider_one_takes_its_place()
    {
        const string site = "layout-of-piles";
        await Sites.OpenSiteAsync(site, Person.Manager);
        var manager = await VisitAsync(Person.Manager);
        var page = manager.Page;
        await manager.GoAsync($"/sites/{site}/design");
        await page.GetByRole(AriaRole.Link, new() { Name = "Lay out piles" }).ClickAsync();
        await page.GetByLabel("Corners on the site grid").FillAsync("1000 2000\n1021 2000\n1021 2021\n1000 2021");
        await page.GetByLabel("A place of it: X").FillAsync("1001.05");
        await page.GetByLabel("Y [m]", new() { Exact = true }).FillAsync("2001.05");
        await page.GetByRole(AriaRole.Button, new() { Name = "Lay out", Exact = true }).ClickAsync();
        await Expect(manager.Figure("Piles")).ToHaveTextAsync("100 in 10 rows");
        // From here on the layout gives way to itself.
        var address = page.Url.Replace("replaces=no", "replaces=yes", StringComparison.Ordinal);

        await SendInAsync(manager, 100);
        await manager.RecordAsync();
        // The workbook of the same layout is the very schedule that was recorded.
        var workbook = await manager.Context.APIRequest.GetAsync(address.Replace("/sites/", "/api/v1/sites/", StringComparison.Ordinal).Replace("layout?", "layout.csv?as=xlsx&", StringComparison.Ordinal));
        await manager.SendAsync(site, new FilePayload { Name = "again.xlsx", MimeType = "application/octet-stream", Buffer = await workbook.BodyAsync() });
        await Expect(page.GetByText("The two designs are the same, 100 piles")).ToBeVisibleAsync();
        await page.GotoAsync(address.Replace("spacing=2.1", "spacing=4.2", StringComparison.Ordinal));
        await manager.LiveAsync();
        await Expect(manager.Figure("Piles")).ToHaveTextAsync("25 in 5 rows");
        await Expect(page.GetByText("The pattern gives a replacement ratio of 0.1781; the design of zone A says 0.7124.")).ToBeVisibleAsync();

        await SendInAsync(manager, 25);
        await Expect(page.GetByRole(AriaRole.Link, new() { Name = "taken out 75" })).ToBeVisibleAsync();
        await Expect(page.GetByRole(AriaRole.Link, new() { Name = "renumbered 24" })).ToBeVisibleAsync();
        await manager.RecordAsync();
        await manager.GoAsync($"/sites/{site}/design");
        await Expect(page.GetByText("25 piles are planned.")).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Last difference" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Design: revision 1 to 2" })).ToBeVisibleAsync();
        await Expect(page.GetByText("1 pile is the same.")).ToBeVisibleAsync();
    }

    [Fact]
    public async Task What_cannot_be_laid_out_is_refused_in_words_and_the_address_keeps_what_was_typed()
    {
        var manager = await VisitAsync(Person.Manager);
        await manager.GoAsync($"/sites/{ServedSites.Demo}/design/layout?zone=A");
        await manager.Page.GetByLabel("Spacing along the row").FillAsync("1.9");
        await manager.Page.GetByLabel("Pattern of the numbers").FillAsync("A-{nothing}");

        await manager.Page.GetByRole(AriaRole.Button, new() { Name = "Lay out", Exact = true }).ClickAsync();

        var problems = manager.Page.GetByRole(AriaRole.Region, new() { Name = "It cannot be laid out like this" }).Last;
        await Expect(problems).ToContainTextAsync("at least the diameter, 2.000 m: neighbours would overlap by 0.100 m");
        await Expect(problems).ToContainTextAsync("A-{nothing}");
        await Expect(manager.Page).ToHaveURLAsync(Typed());
        await Expect(manager.Page.GetByLabel("Spacing along the row")).ToHaveValueAsync("1.9");
        await Expect(manager.Page.GetByRole(AriaRole.Button, new() { NameRegex = SendIn() })).ToHaveCountAsync(0);
        var table = await manager.Context.APIRequest.GetAsync($"/api/v1/sites/{ServedSites.Demo}/design/layout.csv?zone=B&numbers=A-%7Bcount:4%7D");
        (table.Status, (await table.TextAsync()).Contains("A-0001 and", StringComparison.Ordinal)).ShouldBe((400, true));
    }

    [Fact]
    public async Task A_built_pile_that_a_revision_moves_is_marked_until_one_proposes_and_another_decides()
    {
        const string site = "design-revised";
        await Sites.OpenSiteAsync(site, Person.Manager, Person.Surveyor, Person.OwnersRepresentative);
        var manager = await VisitAsync(Person.Manager);
        await SendAsync(manager, site, "revision-a.csv", Head + Planned("A-0001", 1000.000) + Planned("A-0002", 1002.100));
        await manager.RecordAsync();
        await SendAsync(manager, site, "built.csv", BuiltHead + "T-1,A-0001,Tern,1,S-1,2026-03-03T12:00:00,2026-03-03T12:12:00,2026-03-03T12:42:00,1000.020,2000.010,1000.020,2000.010,-12.40,-28.10,63.7,0.5,RTK fixed,0.04,complete\n");
        await manager.RecordAsync();

        await SendAsync(manager, site, "revision-b.csv", Head + Planned("A-0001", 1000.400) + Planned("A-0002", 1002.100) + Planned("A-0003", 1004.200));
        await manager.Page.GetByLabel("Name the designer gives it").FillAsync("B");
        await manager.Page.GetByRole(AriaRole.Button, new() { Name = "Look again" }).ClickAsync();
        await Expect(Row(manager, "A-0001")).ToContainTextAsync("built");
        await Expect(Row(manager, "A-0003")).ToContainTextAsync("added");
        await manager.RecordAsync();
        await manager.GoAsync($"/sites/{site}/piles/A-0001");
        await Expect(manager.Page.Locator(".page-head")).ToContainTextAsync("built, design changed");

        var surveyor = await VisitAsync(Person.Surveyor);
        await surveyor.GoAsync($"/sites/{site}/design");
        await Expect(surveyor.Page.GetByRole(AriaRole.Region, new() { Name = "Built piles that wait for a proposal" })).ToContainTextAsync("built by revision 1; revision 2: moved by dE");
        await Expect(surveyor.Page.GetByRole(AriaRole.Link, new() { Name = "2 (B)" })).ToBeVisibleAsync();
        await surveyor.Page.GetByLabel("Why, and by whose word").FillAsync("Letter of the designer, 4 March.");
        await surveyor.Page.GetByRole(AriaRole.Button, new() { Name = "Keep as built" }).ClickAsync();
        await Expect(surveyor.Page.GetByText("Proposed. Somebody else decides.")).ToBeVisibleAsync();
        await Expect(surveyor.Page.GetByRole(AriaRole.Button, new() { Name = "Approve" })).ToHaveCountAsync(0);

        var owner = await VisitAsync(Person.OwnersRepresentative);
        await owner.GoAsync($"/sites/{site}/design");
        await owner.Page.GetByRole(AriaRole.Button, new() { Name = "Approve" }).ClickAsync();
        await Expect(owner.Page.GetByText("Approved. It holds from now on.")).ToBeVisibleAsync();
        await owner.GoAsync($"/sites/{site}/piles/A-0001");
        await Expect(owner.Page.Locator(".page-head")).Not.ToContainTextAsync("design changed");
        await owner.GoAsync($"/sites/{site}/design/difference");
        await Expect(Row(owner, "A-0001")).ToContainTextAsync("moved");
    }

    private static async Task SendInAsync(Visit visit, int piles)
    {
        await visit.LiveAsync();
        await visit.Page.GetByRole(AriaRole.Button, new() { Name = $"Send {piles} piles in as a schedule" }).ClickAsync();
        await Expect(visit.Page.GetByRole(AriaRole.Heading, new() { Name = "layout-zone-a.csv", Exact = true })).ToBeVisibleAsync();
    }

    private static Task SendAsync(Visit visit, string site, string name, string text)
        => visit.SendAsync(site, new FilePayload { Name = name, MimeType = "text/csv", Buffer = Encoding.UTF8.GetBytes(text) });

    private static ILocator Row(Visit visit, string pile)
        => visit.Page.GetByRole(AriaRole.Region, new() { Name = "Piles that differ" }).GetByRole(AriaRole.Row).Filter(new() { HasText = pile });

    private static string Planned(string number, double x) => FormattableString.Invariant($"{number},A,{x:0.000},2000.000,2.00,-12.50,-28.00,15.0\n");

    [GeneratedRegex("spacing=1\\.9.*numbers=A-%7Bnothing%7D")]
    private static partial Regex Typed();

    [GeneratedRegex("^Send .* in as a schedule$")]
    private static partial Regex SendIn();
}
