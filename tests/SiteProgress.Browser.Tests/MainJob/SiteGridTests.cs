using System.Globalization;
using Microsoft.Playwright;
using Shouldly;
using Xunit;
using static Microsoft.Playwright.Assertions;
using static SiteProgress.Browser.Tests.MainJob.RecordsInSteps;

namespace SiteProgress.Browser.Tests.MainJob;

/// <summary>The surveyor's work with the site grid: a new adjustment from file to revision, and a list of points from any frame to all.</summary>
[Collection(ServedSites.Collection)]
public sealed class SiteGridTests(ServedSites sites) : BrowserTest(sites)
{
    [Fact]
    public async Task A_surveyor_imports_marks_sees_what_a_new_adjustment_changes_and_adopts_it()
    {
        const string site = "grid-adopted";
        await Sites.OpenSiteAsync(site, Person.Surveyor, Person.OwnersRepresentative);
        var visit = await VisitAsync(Person.Surveyor);
        await visit.SendAsync(site, Seed("planned-piles-zone-a.csv"));
        await visit.RecordAsync();

        // All marks surveyed 100 mm further north, and one of them 60 mm off besides: the page must name that one and move the piles.
        await visit.Page.GotoAsync($"/sites/{site}/site-grid");
        await visit.Page.GetByRole(AriaRole.Link, new() { Name = "New adjustment", Exact = true }).ClickAsync();
        await visit.Page.GetByLabel("Or a file in its place").SetInputFilesAsync(Marks(north: 0.100, offMark: "CP-3", offEast: 0.060));
        await visit.Page.GetByRole(AriaRole.Button, new() { Name = "Work it out" }).ClickAsync();
        await Expect(visit.Page.GetByText("CP-3 contradicts the other marks")).ToBeVisibleAsync();
        await Expect(visit.Page.GetByRole(AriaRole.Img, new() { NameRegex = new("Residuals of the proposal.*CP-3") })).ToBeVisibleAsync();

        // Without the wrong one: every pile moves by 100 mm and no verdict changes.
        await visit.Page.GetByLabel("Or a file in its place").SetInputFilesAsync(Marks(north: 0.100));
        await visit.Page.GetByRole(AriaRole.Button, new() { Name = "Work it out" }).ClickAsync();
        await Expect(visit.Page.GetByText("contradicts the other marks")).ToHaveCountAsync(0);
        await Expect(visit.Figure("Median [mm]")).ToHaveTextAsync("100.0");
        await Expect(visit.Figure("Piles whose state or verdicts change")).ToHaveTextAsync("0");
        var download = await visit.Page.RunAndWaitForDownloadAsync(() => visit.Page.GetByRole(AriaRole.Button, new() { Name = "CSV of all piles" }).ClickAsync());
        (await File.ReadAllLinesAsync(await download.PathAsync(), TestContext.Current.CancellationToken)).Length.ShouldBe(File.ReadLines(ServedSites.SeedFile("planned-piles-zone-a.csv")).Count());

        await visit.Page.GetByLabel("Reason").FillAsync("All marks observed again over the winter.");
        await visit.Page.GetByRole(AriaRole.Button, new() { Name = "Adopt", Exact = true }).ClickAsync();
        await Expect(visit.Page.GetByText("Adopted as revision 2.")).ToBeVisibleAsync();
        await Expect(visit.Page.GetByText("All marks observed again over the winter.")).ToBeVisibleAsync();

        var owner = await VisitAsync(Person.OwnersRepresentative, Phone);
        await owner.Page.GotoAsync($"/sites/{site}/site-grid");
        await Expect(owner.Page.GetByRole(AriaRole.Heading, new() { Name = "Adjustment, revision 2" })).ToBeVisibleAsync();
        await Expect(owner.Page.GetByRole(AriaRole.Link, new() { Name = "New adjustment" })).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task A_pasted_list_is_converted_told_line_by_line_and_downloaded()
    {
        var visit = await VisitAsync(Person.OwnersRepresentative);
        await visit.Page.GotoAsync($"/sites/{ServedSites.Demo}/site-grid/convert");
        await visit.Page.GetByText("Paste points or choose a file").ClickAsync();
        await visit.Page.Locator("#list-from").SelectOptionAsync("site-grid");
        await visit.Page.Locator("#list-text").FillAsync("CP-1 940.000 1958.400\nlost\nCP-4;1528.900;2104.300\n");
        await visit.Page.Locator(".list-form").GetByRole(AriaRole.Button, new() { Name = "Convert" }).ClickAsync();
        await Expect(visit.Page.GetByText("2 of 3 points converted.")).ToBeVisibleAsync();
        await Expect(visit.Page.GetByText("found 1 cell.")).ToBeVisibleAsync();

        var download = await visit.Page.RunAndWaitForDownloadAsync(() => visit.Page.Locator(".list-form").GetByRole(AriaRole.Button, new() { Name = "CSV" }).ClickAsync());
        string[][] rows = [.. (await File.ReadAllLinesAsync(await download.PathAsync(), TestContext.Current.CancellationToken)).Select(line => line.Split(','))];
        rows.Length.ShouldBe(4);
        string[] surveyed = File.ReadLines(ServedSites.SeedFile("control-points.csv")).Single(line => line.StartsWith("CP-4", StringComparison.Ordinal)).Split(',');
        Number(rows[3][4]).ShouldBe(Number(surveyed[3]), 0.02); // the fit leaves a few millimetres at each mark
        Number(rows[3][5]).ShouldBe(Number(surveyed[4]), 0.02);
    }

    /// <summary>The demonstration's marks with what a test changes of them.</summary>
    private static FilePayload Marks(double north, string? offMark = null, double offEast = 0)
    {
        string[] lines = File.ReadAllLines(ServedSites.SeedFile("control-points.csv"));
        for (int index = 1; index < lines.Length; index++)
        {
            string[] cells = lines[index].Split(',');
            if (cells[0] == offMark) cells[3] = (Number(cells[3]) + offEast).ToString("0.000", CultureInfo.InvariantCulture);
            cells[4] = (Number(cells[4]) + north).ToString("0.000", CultureInfo.InvariantCulture);
            lines[index] = string.Join(',', cells);
        }

        return new() { Name = "marks.csv", MimeType = "text/csv", Buffer = System.Text.Encoding.UTF8.GetBytes(string.Join('\n', lines) + "\n") };
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
