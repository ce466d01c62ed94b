using Bunit;
using NodaTime;
using Shouldly;
using SiteProgress.Core.SetUps;
using SiteProgress.Web.Planning;
using Xunit;

namespace SiteProgress.Web.Tests.Planning;

/// <summary>Times, waits and water of a plan in its table.</summary>
public sealed class PlanTableTests : BunitContext
{
    private static readonly Instant At = Instant.FromUtc(2026, 6, 1, 4, 0);

    [Fact]
    public void A_dated_plan_shows_site_time_waits_and_what_is_not_known()
    {
        PlannedSetUp[] setUps =
        [
            new(1, 0, default, default, [new CasingBuilds(1, "A-1")], new(At + Duration.FromHours(6), At + Duration.FromHours(7), 1, "the tide"), new(-9, "survey", -5, 0.84)),
            new(2, 0, default, default, [new CasingBuilds(1, "A-2")], new(At + Duration.FromHours(7), At + Duration.FromHours(8), 0, null), new(null, "the seabed here is not known", null, null)),
            new(3, 0, default, default, [new CasingBuilds(1, "A-3")], null, null, "not water enough"),
        ];
        var shown = Table([new(1, default, default, setUps, new(At, At + Duration.FromHours(5), 0, null), 4.2, new(At - Duration.FromHours(8), At, 0, null))], new(At, At, 1, 8, 1, 1));

        string[] rows = [.. shown.FindAll("tbody tr").Select(row => row.TextContent)];
        rows.Length.ShouldBe(5);
        rows[0].ShouldContain("casings to 4.20 m");
        rows[1].ShouldContain("lay anchors 1");
        // Four hours UTC is six o'clock site time in June.
        rows[1].ShouldContain("2026-06-01 06:00");
        rows[2].ShouldContain("1.0, for the tide");
        rows[2].ShouldContain("0.84");
        shown.FindAll("tbody tr")[3].QuerySelector("abbr")!.GetAttribute("title").ShouldBe("not known: the seabed here is not known");
        rows[4].ShouldContain("not dated: not water enough");
        shown.FindAll("thead th").Count.ShouldBe(shown.FindAll("tbody tr")[2].Children.Length);
        shown.FindAll("tbody tr").ShouldAllBe(row => row.Children.Sum(cell => Span(cell)) == 11);
    }

    [Fact]
    public void A_plan_without_dates_shows_none()
    {
        var shown = Table([new(1, default, default, [new(1, 0, default, default, [new CasingBuilds(2, "A-1")])])], null);

        shown.FindAll("thead th").Count.ShouldBe(6);
        shown.FindAll("tbody tr").ShouldHaveSingleItem().Children.Length.ShouldBe(6);
    }

    private static int Span(AngleSharp.Dom.IElement cell) => int.TryParse(cell.GetAttribute("colspan"), out int columns) ? columns : 1;

    private IRenderedComponent<PlanTable> Table(PlannedAnchor[] anchors, PlanTimetable? timetable) => Render<PlanTable>(with => with
        .Add(one => one.Site, "sandlark").Add(one => one.TimeZone, "Europe/Copenhagen").Add(one => one.Plan, new BargePlanResult(anchors, new(default, default, 0, 0), default, [], [], timetable)));
}
