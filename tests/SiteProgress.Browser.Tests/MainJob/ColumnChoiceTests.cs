using System.Text;
using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using Shouldly;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace SiteProgress.Browser.Tests.MainJob;

/// <summary>A file whose titles nobody knows: a person says once what its columns are, on a phone, and the next file of its shape needs no word.</summary>
[Collection(ServedSites.Collection)]
public sealed class ColumnChoiceTests(ServedSites sites) : BrowserTest(sites)
{
    private const string Titles = "Ref;Mark;Begin;Done;East of grid;North of grid;Toe depth (m)\n";

    [Fact]
    public async Task What_columns_are_is_said_once_and_taken_up_for_the_next_file()
    {
        const string site = "column-choice";
        await Sites.OpenSiteAsync(site, Person.Surveyor);
        var visit = await VisitAsync(Person.Surveyor, Phone, withoutPolicy: true);

        await visit.SendAsync(site, File("one.csv", Titles + "R1;A-0001;10.03.2026 07:10;10.03.2026 07:52;1000,02;2000,01;28,4\n"));
        await Expect(visit.Page.GetByRole(AriaRole.Heading, new() { Name = "Columns of the file" }).Or(visit.Page.GetByText("Columns of the file")).First).ToBeVisibleAsync();
        await ShouldFitAPhoneAsync(visit);
        await visit.Page.GetByLabel("What the rows are").SelectOptionAsync("installations");
        await visit.Page.GetByLabel("Line of the header").FillAsync("1");
        await visit.Page.GetByRole(AriaRole.Button, new() { Name = "Read again" }).ClickAsync();

        foreach (var (title, meaning) in new[] { ("Ref", "Record"), ("Mark", "Pile No"), ("East of grid", "X end"), ("North of grid", "Y end"), ("Toe depth (m)", "Tip level"), ("Done", "End") })
            await visit.Page.GetByLabel($"What {title} is", new() { Exact = true }).SelectOptionAsync(new SelectOptionValue { Label = meaning });
        await visit.Page.GetByLabel("Depths are counted down from level [m]").FillAsync("0.3");
        await visit.Page.GetByLabel("Barge (needed)").SelectOptionAsync("Tern");
        await visit.Page.GetByLabel("Outcome (needed)").SelectOptionAsync("complete");
        await visit.Page.GetByRole(AriaRole.Button, new() { Name = "Read again" }).ClickAsync();
        await Expect(visit.Page.GetByText("level = 0.30 m \u2212 depth")).ToBeVisibleAsync();
        await Expect(visit.Page.GetByRole(AriaRole.Cell, new() { Name = "\u221228.10" })).ToBeVisibleAsync();
        await visit.RecordAsync();

        await visit.SendAsync(site, File("two.csv", "log of the day\n" + Titles + "R2;A-0002;10.03.2026 08:10;10.03.2026 08:52;1002,12;2000,01;28,6\n"));
        await Expect(visit.Page.GetByText("Read with the choices of")).ToBeVisibleAsync();
        await Expect(visit.Page.GetByRole(AriaRole.Cell, new() { Name = "\u221228.30" })).ToBeVisibleAsync();
        await visit.RecordAsync();
    }

    [Theory]
    [InlineData(Desk)]
    [InlineData(Phone)]
    public async Task A_crews_own_titles_are_read_shown_and_asked_about(int width)
    {
        var site = $"own-titles-{width}";
        await Sites.OpenSiteAsync(site, Person.Surveyor);
        var visit = await VisitAsync(Person.Surveyor, width, withoutPolicy: true);

        await visit.SendAsync(site, File("night.csv", "Date;SCP nr.;Vessel;Leg;Start;Toe reached;Stop;As-built X;As-built Y;Toe [mBWL];Sand used cbm;Crew;Result\n"
            + "29.05.2026;A-0001;Tern;1;02:10;02:30;02:55;1000,02;2000,01;30,25;64,1;night;complete\n"));
        await Expect(visit.Page.GetByText("\u201CSand used cbm\u201D is taken as loose sand in the casing")).ToBeVisibleAsync();
        await Expect(visit.Page.GetByText("Columns not used: \u201CCrew\u201D.")).ToBeVisibleAsync();
        await Expect(visit.Page.GetByText("taken so; is it?")).ToBeVisibleAsync();
        await Expect(visit.Page.GetByText("30.25 below water")).ToBeVisibleAsync();
        await Expect(visit.Page.GetByText("3 times lie before 06:00, when the working day begins.")).ToBeVisibleAsync();
        await Expect(visit.Page.GetByRole(AriaRole.Cell, new() { Name = "2026-05-29 02:10" })).ToBeVisibleAsync();
        await ShouldFitAPhoneAsync(visit);

        await visit.Page.GetByLabel("Dates beside times of day").SelectOptionAsync("working");
        await visit.Page.GetByRole(AriaRole.Button, new() { Name = "Read again" }).ClickAsync();
        await Expect(visit.Page.GetByRole(AriaRole.Cell, new() { Name = "2026-05-30 02:10" })).ToBeVisibleAsync();
        await visit.RecordAsync();
        await Expect(visit.Page.GetByText("taken as working days from 06:00, as chosen")).ToBeVisibleAsync();
    }

    private static async Task ShouldFitAPhoneAsync(Visit visit)
    {
        var found = await visit.Page.RunAxe(new AxeRunOptions { RunOnly = RunOnlyOptions.Tags("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"), ResultTypes = [ResultType.Violations] });
        found.Violations.Select(one => $"{one.Id}: {string.Join(" | ", one.Nodes.Take(3).Select(node => node.Html))}").ShouldBeEmpty();
        (await visit.Page.EvaluateAsync<int>("document.documentElement.scrollWidth - document.documentElement.clientWidth")).ShouldBe(0);
    }

    private static FilePayload File(string name, string text) => new() { Name = name, MimeType = "text/csv", Buffer = Encoding.UTF8.GetBytes(text) };
}
