using NodaTime;
using Shouldly;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;
using Xunit;

namespace SiteProgress.Core.Tests.Progress;

public sealed class PlannedCurveTests
{
    // 2026-06-01 is a Monday.
    private static readonly LocalDate Monday = new(2026, 6, 1);

    private static WorkPlan Plan(params ZonePlan[] zones) => WorkPlan.Empty with { Zones = zones, RestWeekdays = [IsoDayOfWeek.Sunday] };

    [Fact]
    public void Dates_are_spread_over_the_worked_days_alone()
    {
        // Monday to Monday: seven worked days and a Sunday; 70 piles are ten a day.
        IReadOnlyList<CurvePoint> curve = PlannedCurve.OfZone("A", 70, [], Plan(new ZonePlan("A", Monday, Monday.PlusDays(7), null, null)));

        curve.Select(point => point.Piles).ShouldBe([10, 20, 30, 40, 50, 60, 60, 70]);
    }

    [Fact]
    public void A_rate_ends_where_the_piles_end()
    {
        IReadOnlyList<CurvePoint> curve = PlannedCurve.OfZone("A", 25, [], Plan(new ZonePlan("A", Monday, null, 10, null)));

        curve.Select(point => point.Piles).ShouldBe([10, 20, 25]);
    }

    [Fact]
    public void A_schedule_wins_over_dates_and_is_spread_between_its_own()
    {
        PlannedProgress[] schedule = [new(Monday, "A", 0), new(Monday.PlusDays(7), "A", 60), new(Monday.PlusDays(8), "B", 5)];

        IReadOnlyList<CurvePoint> curve = PlannedCurve.OfZone("A", 25, schedule, Plan(new ZonePlan("A", Monday, null, 10, null)));

        curve.Select(point => point.Piles).ShouldBe([0, 10, 20, 30, 40, 50, 50, 60]);
        PlannedCurve.At(curve, Monday.PlusDays(3)).ShouldBe(30);
        PlannedCurve.At(curve, Monday.PlusDays(-1)).ShouldBe(0);
        PlannedCurve.At(curve, Monday.PlusDays(99)).ShouldBe(60);
    }

    [Fact]
    public void The_site_is_the_sum_of_its_zones_unless_the_schedule_says_it_itself()
    {
        WorkPlan plan = Plan(new ZonePlan("A", Monday, null, 10, null), new ZonePlan("B", Monday.PlusDays(1), null, 5, null));
        IReadOnlyList<CurvePoint>[] zones = [PlannedCurve.OfZone("A", 20, [], plan), PlannedCurve.OfZone("B", 10, [], plan)];

        PlannedCurve.OfSite([], plan, zones).Select(point => point.Piles).ShouldBe([10, 25, 30]);
        PlannedCurve.OfSite([new PlannedProgress(Monday, null, 3)], plan, zones).Select(point => point.Piles).ShouldBe([3]);
    }

    [Fact]
    public void A_restricted_zone_waits_and_the_others_do_not()
    {
        WorkPlan plan = Plan(new ZonePlan("A", Monday, null, 10, null)) with { Restricted = [new RestrictedWindow(Monday, Monday, "A", null, "spawning")] };
        WorkingCalendar calendar = new(plan);

        calendar.IsWorked(Monday).ShouldBeTrue();
        calendar.IsWorked(Monday, "Tern", "A").ShouldBeFalse();
        calendar.IsWorked(Monday, "Tern", "B").ShouldBeTrue();
        PlannedCurve.OfZone("A", 20, [], plan).Select(point => point.Piles).ShouldBe([0, 10, 20]);
    }

    [Fact]
    public void Holidays_are_not_counted_as_worked()
        => new WorkingCalendar(WorkPlan.Empty with { Holidays = [Monday], RestWeekdays = [IsoDayOfWeek.Sunday] }).CountWorked(Monday, Monday.PlusDays(7)).ShouldBe(6);
}
