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

    /// <summary>
    /// Zone C is planned on the site grid, so what is planned within 30 m of the design of Plover's last pile, and not built by either
    /// barge that worked there, is left behind it; and so is a pile that was built and is to be built again by decision. No pile lies within 0.2 m of the edge, and the casing stood nearer than that to its pile.
    /// </summary>
    private const string LeftBehindPlover = """
        with last as (
            select "Pile No" as pile from plover order by to_timestamp("End", 'DD.MM.YYYY HH24:MI') desc, "Record" desc limit 1
        ), stands as (
            select trim("Pile No") as pile from plover where "Outcome" in ('complete', 'refused', 'offset by instruction')
            union select trim(pile_no) from curlew where outcome in ('complete', 'refused', 'offset by instruction')
        ), near as (
            select p.pile_no as pile, sqrt((p."x [m]"::numeric - c."x [m]"::numeric) ^ 2 + (p."y [m]"::numeric - c."y [m]"::numeric) ^ 2) as away
            from planned p, planned c, last where c.pile_no = last.pile
        )
        select pile, 1 from near where away <= 30 and pile not in (select pile from stands)
        union all select 'stand', count(*) from near where away <= 30 and pile in (select pile from stands)
        union all select 'at the edge', count(*) from near where abs(away - 30) < 0.2
        """;

    [Fact]
    public async Task What_is_left_behind_Plover_is_what_plain_sql_finds_planned_and_not_built_about_its_last_pile()
    {
        await using var raw = await RawTables.OpenAsync();
        await raw.CopyAsync("planned", ServedSites.SeedFile("planned-piles-zone-c.csv"));
        await raw.CopyAsync("plover", Directory.GetFiles(ServedSites.SeedFile("as-built"), "*-plover.csv"));
        await raw.CopyAsync("curlew", Directory.GetFiles(ServedSites.SeedFile("as-built"), "*-curlew.tsv"));
        var counted = await raw.CountsAsync(LeftBehindPlover);
        counted["at the edge"].ShouldBe(0);
        HashSet<string> left = [.. counted.Keys.Where(name => name.StartsWith("C-", StringComparison.Ordinal))];
        left.Count.ShouldBeGreaterThan(100);
        var visit = await VisitAsync(Person.Manager);
        await visit.GoAsync($"/sites/{ServedSites.Demo}/outstanding");

        await visit.Page.GetByRole(AriaRole.Link, new() { Name = "Before the anchors lift" }).ClickAsync();
        await visit.Page.GetByRole(AriaRole.List, new() { Name = "Barge" }).GetByRole(AriaRole.Link, new() { Name = "Plover", Exact = true }).ClickAsync();
        await Expect(visit.Page.GetByRole(AriaRole.Heading, new() { Name = "Before the anchors of Plover lift" })).ToBeVisibleAsync();
        // Opened anew: the page before is live until it gives way, and a field filled in too early is drawn over.
        await visit.GoAsync(visit.Page.Url);
        await visit.Page.GetByLabel("Within reach of the last casing").FillAsync("30");
        await visit.Page.GetByRole(AriaRole.Button, new() { Name = "Look there" }).ClickAsync();

        await Expect(visit.Page.GetByText("Plover last built").First).ToContainTextAsync($"Within 30 m {counted["stand"] - 1} piles stand, {left.Count + 1} are outstanding");
        var shown = await visit.Page.GetByRole(AriaRole.Region, new() { Name = "Outstanding within reach" }).Locator("tbody th").AllTextContentsAsync();
        left.ShouldBeSubsetOf(shown);
        var again = shown.Except(left).ShouldHaveSingleItem();
        await visit.GoAsync($"/sites/{ServedSites.Demo}/piles/{again}");
        await Expect(visit.Page.GetByText("build again").First).ToBeVisibleAsync();
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
