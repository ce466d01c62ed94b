using Microsoft.Playwright;
using Shouldly;
using Xunit;
using static Microsoft.Playwright.Assertions;
using static SiteProgress.Browser.Tests.MainJob.RecordsInSteps;

namespace SiteProgress.Browser.Tests.MainJob;

/// <summary>The main job on a site without records: what was planned and what was built come in, and every page counts them alike.</summary>
[Collection(ServedSites.Collection)]
public sealed class MainJobTests(ServedSites sites) : BrowserTest(sites)
{
    private const string Planned = "planned-piles-zone-a.csv";
    private const string Built = "as-built/2026-04-11-tern.csv";

    /// <summary>
    /// Plain SQL over the raw rows. A pile stands on its last attempt that reached the top; limits are those of zone A in
    /// site.json (0.15 m radial, 0.30 m top, 0.20 m tip, 5 % sand of 3.1416 m3 a metre at C 0.82, 1.2 degrees); the position
    /// farther from the design of touch-down and end of penetration is judged, and only by an RTK-fixed fix.
    /// </summary>
    private const string PilesByState = """
        with stands as (
            select distinct on (trim(b."Pile No")) b.*,
                   b."X touch-down [m]"::numeric - p."X [m]"::numeric as x1, b."Y touch-down [m]"::numeric - p."Y [m]"::numeric as y1,
                   b."X end [m]"::numeric - p."X [m]"::numeric as x2, b."Y end [m]"::numeric - p."Y [m]"::numeric as y2,
                   b."Top level [m]"::numeric as top, b."Tip level [m]"::numeric as tip, b."Sand in casing [m3]"::numeric as sand,
                   p."Top level [m]"::numeric as design_top, p."Tip level [m]"::numeric as design_tip, p."Min length [m]"::numeric as least
            from built b join planned p on p."Pile No" = trim(b."Pile No")
            where b."Outcome" in ('complete', 'refused', 'offset by instruction')
            order by trim(b."Pile No"), b."End" desc
        ), judged as (
            select case
                when "Fix" = 'RTK fixed' and "Outcome" <> 'offset by instruction' and greatest(sqrt(x1 * x1 + y1 * y1), sqrt(x2 * x2 + y2 * y2)) > 0.15
                  or abs(top - design_top) > 0.30 or tip - design_tip > 0.20 or top - tip < least
                  or sand * 0.82 / ((top - tip) * 3.1416) < 0.95 or "Inclination [deg]"::numeric > 1.2 then 'finding'
                when "Fix" <> 'RTK fixed' or "Outcome" = 'offset by instruction' then 'incomplete record'
                else 'installed' end as state
            from stands
        )
        select state, count(*) from judged group by state
        union all select 'outstanding', (select count(*) from planned) - (select count(*) from stands)
        union all select 'planned', count(*) from planned
        union all select 'rows', count(*) from built
        """;

    [Fact]
    public async Task A_surveyor_brings_the_plan_and_a_fortnight_in_and_every_page_counts_what_plain_sql_counts_in_the_files()
    {
        const string site = "main-job";
        await Sites.OpenSiteAsync(site, Person.Surveyor);
        var expected = await CountRawAsync();
        expected.ShouldContainKey("finding");
        expected.ShouldContainKey("incomplete record");
        var visit = await VisitAsync(Person.Surveyor);

        await visit.SendAsync(site, Seed(Planned));
        await Expect(visit.Figure("Good rows")).ToHaveTextAsync(Shown(expected["planned"]));
        await Expect(visit.Figure("Piles new in the design")).ToHaveTextAsync(Shown(expected["planned"]));
        await visit.RecordAsync();
        await visit.SendAsync(site, Seed(Built));
        await Expect(visit.Figure("Good rows")).ToHaveTextAsync(Shown(expected["rows"]));
        await Expect(visit.Figure("Lines with problems")).ToHaveTextAsync("0");
        await visit.RecordAsync();

        await LegendCountsAsync(visit, site, expected);
        await TodayCountsAsync(visit, site, expected);
        await visit.GoAsync($"/sites/{site}/piles?state=finding");
        await Expect(visit.Page.Locator(".page-head [role=status]")).ToHaveTextAsync($"{Shown(expected["finding"])} piles");
    }

    private static async Task<Dictionary<string, long>> CountRawAsync()
    {
        await using var raw = await RawTables.OpenAsync();
        await raw.CopyAsync("planned", ServedSites.SeedFile(Planned));
        await raw.CopyAsync("built", ServedSites.SeedFile(Built));
        return await raw.CountsAsync(PilesByState);
    }

    private static async Task LegendCountsAsync(Visit visit, string site, Dictionary<string, long> expected)
    {
        await visit.GoAsync($"/sites/{site}/map");
        await visit.Page.Locator("[data-map=ready]").WaitForAsync();
        foreach (var state in new[] { "outstanding", "installed", "finding", "incomplete record" })
            await Expect(visit.Page.GetByRole(AriaRole.Button, new() { Name = $"{state} {Shown(expected[state])}", Exact = true })).ToBeVisibleAsync();
        await Expect(visit.Page.Locator(".map-total")).ToContainTextAsync($"of {Shown(expected["planned"])} piles shown");
    }

    private static async Task TodayCountsAsync(Visit visit, string site, Dictionary<string, long> expected)
    {
        await visit.GoAsync($"/sites/{site}/today");
        var states = visit.Page.GetByRole(AriaRole.Table, new() { Name = "Piles by state" });
        foreach (var state in new[] { "outstanding", "installed", "finding", "incomplete record" })
        {
            var row = states.GetByRole(AriaRole.Row).Filter(new() { Has = visit.Page.GetByRole(AriaRole.Rowheader, new() { Name = state, Exact = true }) });
            await Expect(row.GetByRole(AriaRole.Cell).First).ToHaveTextAsync(Shown(expected[state]));
        }
    }
}
