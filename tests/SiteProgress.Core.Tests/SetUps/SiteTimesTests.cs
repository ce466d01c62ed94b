using NodaTime;
using Shouldly;
using SiteProgress.Core.Levels;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;
using SiteProgress.Core.SetUps;
using Xunit;

namespace SiteProgress.Core.Tests.SetUps;

/// <summary>When a barge may work. Worked by hand from the calendar of 2026.</summary>
public sealed class SiteTimesTests
{
    private static readonly WorkingDays Days = new(Invented.Settings);

    [Fact]
    public void Rest_days_closed_zones_and_the_barges_stay_are_taken_out()
    {
        LocalDate first = new(2026, 6, 4); // A Thursday.
        WorkPlan plan = WorkPlan.Empty with
        {
            RestWeekdays = [IsoDayOfWeek.Sunday],
            Restricted = [new(new(2026, 6, 9), new(2026, 6, 9), "A", null, "ferry"), new(new(2026, 6, 5), new(2026, 6, 5), null, "Plover", "docking")],
            Barges = [new("Tern", null, new(2026, 6, 10), [])],
        };

        OpenTimes zone = Open("A"), other = Open("B");

        zone.Spans.ShouldBe([Span(4, 7), Span(8, 9), Span(10, 11)]);
        other.Spans.ShouldBe([Span(4, 7), Span(8, 11)]);
        SiteTimes.Working(plan, Days, "Tern", "A", Days.BeginOf(first) + Duration.FromHours(3), 2, 10).Spans
            .ShouldBe([new Interval(Days.BeginOf(first) + Duration.FromHours(3), Days.BeginOf(first) + Duration.FromHours(10)), new(Days.BeginOf(new(2026, 6, 5)), Days.BeginOf(new(2026, 6, 5)) + Duration.FromHours(10))]);

        OpenTimes Open(string code) => SiteTimes.Working(plan, Days, "Tern", code, Days.BeginOf(first), 30, 24);

        static Interval Span(int from, int to) => new(Days.BeginOf(new(2026, 6, from)), Days.BeginOf(new(2026, 6, to)));
    }

    [Fact]
    public void Slack_water_lies_about_high_and_low_water_so_much_later()
    {
        Instant begin = Instant.FromUtc(2026, 6, 1, 0, 0);
        TidePrediction tide = TidePrediction.Of([.. Enumerable.Range(0, 144 * 30).Select(step => begin - Duration.FromDays(30) + Duration.FromMinutes(10 * step))
            .Select(at => (at, Math.Cos((at - begin).TotalHours * 28.9841042 * Math.PI / 180)))])!;

        OpenTimes slack = SiteTimes.Slack(tide, begin, begin + Duration.FromHours(13), Duration.FromMinutes(30), Duration.FromMinutes(40));

        // High water at the beginning and 12.42 h later, low water 6.21 h after it: half a period of M2 (12.4206 h).
        slack.Spans.Count.ShouldBe(3);
        foreach ((Interval span, double turn) in slack.Spans.Zip([0, 6.2103, 12.4206])) ((span.End - begin).TotalHours - turn).ShouldBe(70 / 60.0, 0.02);
        (slack.Spans[1].End - slack.Spans[1].Start).TotalMinutes.ShouldBe(60, 0.001);
    }

    [Fact]
    public void Windows_entered_for_a_barge_and_a_use_hold_and_none_entered_is_no_limit()
    {
        Instant at = Instant.FromUtc(2026, 6, 1, 4, 0);
        SlackWindow Window(int hour, SlackUse use, string? barge) => new(at + Duration.FromHours(hour), at + Duration.FromHours(hour + 1), use, barge);
        WorkPlan plan = WorkPlan.Empty with { Windows = [Window(0, SlackUse.Anchors, null), Window(6, SlackUse.Both, "Tern"), Window(12, SlackUse.SetUps, "Plover")] };

        SiteTimes.Entered(plan, "Tern", SlackUse.Anchors)!.Spans.Count.ShouldBe(2);
        SiteTimes.Entered(plan, "Tern", SlackUse.SetUps)!.Spans.ShouldHaveSingleItem();
        SiteTimes.Entered(plan, "Curlew", SlackUse.SetUps).ShouldBeNull();
        SiteTimes.Entered(WorkPlan.Empty, "Tern", SlackUse.Anchors).ShouldBeNull();
    }
}
