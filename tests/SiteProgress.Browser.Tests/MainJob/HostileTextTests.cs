using System.Text;
using Microsoft.Playwright;
using Shouldly;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace SiteProgress.Browser.Tests.MainJob;

/// <summary>Markup in what comes in is text on every page, never a part of the page.</summary>
[Collection(ServedSites.Collection)]
public sealed class HostileTextTests(ServedSites sites) : BrowserTest(sites)
{
    private const string Hostile = "<img src=x onerror=window.taken=1>";

    [Fact]
    public async Task Markup_in_a_remark_a_number_or_a_file_name_is_shown_letter_by_letter()
    {
        const string site = "hostile";
        await Sites.OpenSiteAsync(site, Person.Surveyor);
        var visit = await VisitAsync(Person.Surveyor);
        await visit.SendAsync(site, Table($"{Hostile} plan.csv",
            "Pile No,Zone,X [m],Y [m],Diameter [m],Top level [m],Tip level [m],Min length [m],Remark",
            $"A-0001,A,1000.000,2000.000,2.00,-12.50,-28.00,15.0,{Hostile}"));
        await ShouldBeTextAsync(visit);
        await visit.RecordAsync();
        await ShouldBeTextAsync(visit);
        await visit.SendAsync(site, Table("built.csv",
            "Record,Pile No,Barge,Casing,Set-up,Start,End penetration,End,X touch-down [m],Y touch-down [m],X end [m],Y end [m],Heading grid [deg],Top level [m],Tip level [m],Sand in casing [m3],Inclination [deg],Penetration rate at stop [m/min],Fix,Uncertainty [m],Outcome,Remark",
            $"R-1,A-0001,Tern,1,S-1,2026-03-02T18:12:00,2026-03-02T18:24:00,2026-03-02T18:54:00,1000.010,2000.010,1000.010,2000.010,33.0,-12.5,-28.0,62.0,0.2,,RTK fixed,0.04,complete,{Hostile}"));
        await ShouldBeTextAsync(visit);
        await visit.RecordAsync();
        await ShouldBeTextAsync(visit);
        foreach (var page in new[] { "piles/A-0001", "records-in" })
        {
            await visit.GoAsync($"/sites/{site}/{page}");
            await ShouldBeTextAsync(visit);
        }
    }

    [Fact]
    public async Task Markup_as_a_pile_number_is_refused_by_its_line_and_shown_letter_by_letter()
    {
        const string site = "hostile-number";
        await Sites.OpenSiteAsync(site, Person.Surveyor);
        var visit = await VisitAsync(Person.Surveyor);
        await visit.SendAsync(site, Table("numbers.csv",
            "Pile No,Zone,X [m],Y [m],Diameter [m],Top level [m],Tip level [m],Min length [m],Remark",
            $"{Hostile},A,1000.000,2000.000,2.00,-12.50,-28.00,15.0,"));
        await ShouldBeTextAsync(visit);
        await Expect(visit.Figure("Good rows")).ToHaveTextAsync("0");
        await Expect(visit.Figure("Lines with problems")).ToHaveTextAsync("1");
    }

    private static FilePayload Table(string name, params string[] lines)
        => new() { Name = name, MimeType = "text/csv", Buffer = Encoding.UTF8.GetBytes(string.Join('\n', lines) + "\n") };

    private static async Task ShouldBeTextAsync(Visit visit)
    {
        // On a page with a folded table the first place may be inside it.
        await Expect(visit.Page.GetByText(Hostile).Filter(new() { Visible = true }).First).ToBeVisibleAsync();
        (await visit.Page.Locator("img[src=x]").CountAsync()).ShouldBe(0, visit.Page.Url);
        (await visit.Page.EvaluateAsync<bool>("'taken' in window")).ShouldBeFalse(visit.Page.Url);
    }
}
