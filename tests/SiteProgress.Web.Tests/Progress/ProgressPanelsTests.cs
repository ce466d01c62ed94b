using AngleSharp.Dom;
using Bunit;
using NodaTime;
using Shouldly;
using SiteProgress.Core.Forecast;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;
using SiteProgress.Jobs.Progress;
using SiteProgress.Web.Progress;
using SiteProgress.Web.Shell;
using Xunit;

namespace SiteProgress.Web.Tests.Progress;

/// <summary>Tables of progress: what a reader sees of given figures, and of figures that are not there.</summary>
public sealed class ProgressPanelsTests : BunitContext
{
    public ProgressPanelsTests() => JSInterop.Mode = JSRuntimeMode.Loose;

    [Fact]
    public void Cycle_times_are_shown_in_whole_minutes_and_what_no_record_holds_says_so()
    {
        IRenderedComponent<CyclePanel> panel = Render<CyclePanel>(with => with.Add(one => one.View, View() with
        {
            Cycles = [new CycleFigures("Tern", 426, 2.9, 98.4, 61.6, 12, 34, 36.5), new CycleFigures("Curlew", 3, 1, null, 50, null, null, null)],
        }));

        Cells(panel.FindAll("tbody tr")[0]).ShouldBe(["Tern", "426", "2.90", "98", "62", "12", "34", "37"], "the figures, rounded to whole minutes");
        panel.FindAll("tbody tr")[1].InnerHtml.ShouldContain("The records hold no such times.");
    }

    [Fact]
    public void Without_a_diary_the_hours_say_where_they_come_from()
    {
        string markup = Hours(View()).Markup;

        markup.ShouldContain("The hours of each barge would stand here.");
        markup.ShouldContain("href=\"/sites/x/diary\"");
    }

    [Fact]
    public void Hours_stand_by_barge_and_kind_and_days_that_do_not_add_up_lead_to_their_diary()
    {
        IRenderedComponent<HoursPanel> panel = Hours(View() with
        {
            Hours = [new BargeHours("Tern", 2, new Dictionary<TimeKind, decimal> { [TimeKind.Installing] = 30m, [TimeKind.Weather] = 10m, [TimeKind.Rest] = 8m }, 48m)],
            HoursByCause = [new CauseHours("Tern", TimeKind.Weather, "standby", "swell <1.5 m", "owner", 10m)],
            DaysNotAddingUp = [new DayHours(new DateOnly(2026, 5, 29), "Tern", 23.5m, 24m)],
        });

        panel.FindAll("thead th").Select(head => head.TextContent).Take(6).ShouldBe(["Barge", "Days", "installing [h]", "weather [h]", "rest [h]", "All [h]"], Case.Insensitive);
        Cells(panel.FindAll("tbody tr")[0]).ShouldBe(["Tern", "2", "30.0", "10.0", "8.0", "48.0"]);
        // 30 of 40 hours that were no rest.
        panel.Find("figcaption").TextContent.ShouldBe("Tern built piles in 75.0 % of its time without rest, and lost 10.0 h to weather.");
        IElement link = panel.Find(".notice a");
        link.GetAttribute("href").ShouldBe("/sites/x/diary?day=2026-05-29&barge=Tern");
        panel.Find(".notice li").TextContent.ShouldContain("23.5 of 24.0 h");
        Cells(panel.FindAll("details tbody tr")[0]).ShouldBe(["Tern", "weather", "standby", "swell <1.5 m", "owner", "10.0"], Case.Insensitive);
    }

    [Fact]
    public void Production_stands_under_its_four_headings_and_rework_is_counted_apart()
    {
        IRenderedComponent<ProductionTables> panel = Render<ProductionTables>(with => with.Add(one => one.View, View() with
        {
            Groups = [new GroupTotal("barge", "Tern", 68, 1282, 1270, 19720.4, 81234.5, 66612.3, 21), new GroupTotal("zone", "", 3, 5, 0, 0, 0, 0, 0)],
            Rework = new ReworkTotal(1287, 12, 9),
        }));

        panel.FindAll("caption").Select(caption => caption.TextContent).ShouldBe(["By barge", "By zone", "By casing", "By shift"]);
        Plain(Cells(panel.Find("[aria-label='Production by barge'] tbody tr"))).ShouldBe(["Tern", "68", "1282", "1270", "19720.4", "81234.5", "66612.3", "21"]);
        Cells(panel.Find("[aria-label='Production by zone'] tbody tr"))[0].ShouldBe("none adopted");
        Plain([panel.Find("p.quiet").TextContent])[0].ShouldBe("12of1287attemptswereinterruptedorabandoned;9weremadeatapilethathadbeenattemptedbefore.");
    }

    [Fact]
    public void A_zone_without_a_plan_says_so_one_that_is_done_says_done_and_the_site_stands_last()
    {
        FinishDates finish = new(new LocalDate(2026, 7, 1), new LocalDate(2026, 7, 8), null);
        ForecastView forecast = new(
            new FinishForecast(new LocalDate(2026, 5, 29), finish, [new ZoneFinish("A", 10, 30, finish)], [], null, 1_000, 60, []), null, new ForecastOptions(), default, [], []);
        IRenderedComponent<ZoneStandings> panel = Render<ZoneStandings>(with => with.Add(one => one.Site, "x").Add(one => one.Forecast, forecast).Add(one => one.Caption, "By zone").Add(one => one.View, View() with
        {
            Zones = [Zone("A", 100, 70), Zone("B", 50, 50), Zone("", 150, 120)],
        }));

        IReadOnlyList<IElement> rows = panel.FindAll("tbody tr");
        rows[0].QuerySelector("a")!.GetAttribute("href").ShouldBe("/sites/x/outstanding?zone=A");
        Cells(rows[0])[9..11].ShouldBe(["2026-07-01", "2026-07-08"]);
        rows[0].InnerHtml.ShouldContain("Neither a schedule of progress nor the plan of work says when.");
        rows[0].InnerHtml.ShouldContain("Not within four years.");
        Cells(rows[1])[9..].ShouldBe(["done", "done", "done"]);
        Cells(rows[2])[0].ShouldBe("Whole site");
        Cells(rows[2])[4].ShouldBe("80.0");
        panel.Markup.ShouldContain("ES = C + (built");
    }

    private IRenderedComponent<HoursPanel> Hours(ProgressView view)
    {
        ComponentFactories.AddStub<Chart>(shown => place =>
        {
            place.AddMarkupContent(0, $"<figcaption>{shown.Get(one => one.Summary)}</figcaption>");
            place.AddContent(1, shown.Get(one => one.ChildContent));
        });
        return Render<HoursPanel>(with => with.Add(one => one.Site, "x").Add(one => one.View, view).Add(one => one.Option, new object()));
    }

    private static string[] Cells(IElement row) => [.. row.Children.Select(cell => cell.TextContent.Trim())];

    private static string[] Plain(string[] texts) => [.. texts.Select(text => string.Concat(text.Where(letter => !char.IsWhiteSpace(letter))))];

    private static ZoneStanding Zone(string code, int planned, int built)
        => new(code, "Zone " + code, planned, built, (double)built / planned, (double)built / planned, null, null, [], [], null, null);

    private static ProgressView View() => new(7, "UTC", WorkPlan.Empty, new DateOnly(2026, 5, 29), null, null, [], [], [], [], [], [], [], new ReworkTotal(0, 0, 0));
}
