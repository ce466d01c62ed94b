using System.Globalization;
using Microsoft.Playwright;
using Shouldly;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace SiteProgress.Browser.Tests.MainJob;

/// <summary>The manager's morning on the demonstration; figures are checked by plain SQL over the raw files.</summary>
[Collection(ServedSites.Collection)]
public sealed class ManagersMorningTests(ServedSites sites) : BrowserTest(sites)
{
    private const string Day = "2026-05-29";

    /// <summary>The working day begins at 06:00 site time, which Tern's file writes.</summary>
    private const string BuiltByTern = """
        select 'piles', count(*) from built where (replace("End", 'T', ' ')::timestamp - interval '6 hours')::date = '2026-05-29' and "Outcome" in ('complete', 'refused', 'offset by instruction')
        union all select 'centimetres', round(sum(("Top level [m]"::numeric - "Tip level [m]"::numeric) * 100)) from built where (replace("End", 'T', ' ')::timestamp - interval '6 hours')::date = '2026-05-29'
        """;

    private const string HoursOfTern = """
        select 'weather', round(sum("Hours"::numeric) * 10) from diary where "Barge" = 'Tern' and "Cause" = 'weather'
        union all select 'all', round(sum("Hours"::numeric) * 100) from diary where "Barge" = 'Tern' and "Working day" = '2026-05-29'
        """;

    [Fact]
    public async Task What_was_built_on_the_last_day_is_what_plain_sql_counts_and_the_finish_stands_on_the_landing_page()
    {
        await using var raw = await RawTables.OpenAsync();
        await raw.CopyAsync("built", ServedSites.SeedFile("as-built/2026-05-29-tern.csv"));
        var counted = await raw.CountsAsync(BuiltByTern);
        var visit = await VisitAsync(Person.Manager);

        await visit.GoAsync($"/sites/{ServedSites.Demo}/today?day={Day}");

        var row = visit.Page.Locator($"#day-{Day}").Locator("xpath=..").GetByRole(AriaRole.Row).Filter(new() { HasText = "Tern" });
        await Expect(row.GetByRole(AriaRole.Cell).Nth(1)).ToHaveTextAsync(counted["piles"].ToString(CultureInfo.InvariantCulture));
        await Expect(row.GetByRole(AriaRole.Cell).Nth(2)).ToHaveTextAsync((counted["centimetres"] / 100m).ToString("0.00", CultureInfo.InvariantCulture));
        await Expect(visit.Page.Locator("p.finish")).ToContainTextAsync("is the P50; P10 2026-");
    }

    [Fact]
    public async Task When_the_work_ends_is_said_with_how_sure_it_is_and_hours_are_those_of_the_diary()
    {
        await using var raw = await RawTables.OpenAsync();
        await raw.CopyAsync("diary", ServedSites.SeedFile("diary.csv"));
        var hours = await raw.CountsAsync(HoursOfTern);
        var visit = await VisitAsync(Person.Manager);
        await visit.GoAsync($"/sites/{ServedSites.Demo}/today?day={Day}");

        await visit.Page.GetByRole(AriaRole.Link, new() { Name = "How sure that is, and why" }).ClickAsync();

        await Expect(visit.Page.GetByRole(AriaRole.Heading, new() { Name = "Forecast" })).ToBeVisibleAsync();
        await Expect(visit.Page.GetByText("Chance of being done by 2026-07-18")).ToBeVisibleAsync();
        await Expect(visit.Page.GetByText($"Tern built piles in").First).ToContainTextAsync($"{(hours["weather"] / 10m).ToString("0.0", CultureInfo.InvariantCulture)} h to weather");
        await Expect(visit.Page.Locator("[data-chart=ready]").First).ToBeVisibleAsync();
    }

    [Fact]
    public async Task The_report_of_the_day_holds_the_hours_of_the_diary_and_prints_on_paper()
    {
        await using var raw = await RawTables.OpenAsync();
        await raw.CopyAsync("diary", ServedSites.SeedFile("diary.csv"));
        var hours = await raw.CountsAsync(HoursOfTern);
        var visit = await VisitAsync(Person.Manager);
        await visit.GoAsync($"/sites/{ServedSites.Demo}/daily-report?day={Day}");

        var all = visit.Page.GetByRole(AriaRole.Region, new() { Name = "Hours", Exact = true }).GetByRole(AriaRole.Row).Filter(new() { HasText = "Tern" }).Last;
        await Expect(all).ToContainTextAsync((hours["all"] / 100m).ToString("0.00", CultureInfo.InvariantCulture));
        await Expect(visit.Page.GetByRole(AriaRole.Button, new() { Name = "Issue the report" })).ToBeVisibleAsync();
        await visit.Page.EmulateMediaAsync(new() { Media = Media.Print });
        await Expect(visit.Page.GetByRole(AriaRole.Button, new() { Name = "Issue the report" })).ToBeHiddenAsync();
        var paper = await visit.Page.PdfAsync(new() { Format = "A4", PrintBackground = false });
        System.Text.Encoding.Latin1.GetString(paper, 0, 5).ShouldBe("%PDF-");
        paper.Length.ShouldBeGreaterThan(10_000);
    }
}
