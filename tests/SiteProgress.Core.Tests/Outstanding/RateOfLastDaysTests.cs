using NodaTime;
using Shouldly;
using SiteProgress.Core.Outstanding;
using Xunit;

namespace SiteProgress.Core.Tests.Outstanding;

/// <summary>Plain arithmetic, worked out by hand.</summary>
public sealed class RateOfLastDaysTests
{
    private static readonly LocalDate Monday = new(2026, 5, 4);

    [Fact]
    public void Mean_days_and_date_are_those_of_a_calculation_by_hand()
    {
        // 6 of 7 days with records, 40 piles each: 240 in a week. 500 left: 12.5 such days, 14 7/12 calendar days.
        RateOfLastDays rate = RateOfLastDays.Of(
            [.. Enumerable.Range(0, 3).Concat(Enumerable.Range(4, 3)).Select(day => new PilesOfDay(Monday.PlusDays(day), 40))], 500, 10)!;

        rate.ShouldBe(new RateOfLastDays(6, Monday, Monday.PlusDays(6), 40m, 13, Monday.PlusDays(6 + 15)));
    }

    [Fact]
    public void Only_the_last_days_count_whatever_their_order()
    {
        RateOfLastDays rate = RateOfLastDays.Of(
            [new(Monday.PlusDays(2), 30), new(Monday, 900), new(Monday.PlusDays(1), 20)], 50, 2)!;

        rate.PilesPerDay.ShouldBe(25m);
        rate.FirstDay.ShouldBe(Monday.PlusDays(1));
        rate.DaysNeeded.ShouldBe(2);
        rate.AtThatRate.ShouldBe(Monday.PlusDays(4));
    }

    [Fact]
    public void Exactly_whole_days_are_not_rounded_up()
        => RateOfLastDays.Of([new(Monday, 10)], 30, 10)!.AtThatRate.ShouldBe(Monday.PlusDays(3));

    [Fact]
    public void Nothing_left_is_done_on_the_last_day() => RateOfLastDays.Of([new(Monday, 10)], 0, 10)!.AtThatRate.ShouldBe(Monday);

    [Fact]
    public void Days_without_a_completed_pile_give_no_date()
    {
        RateOfLastDays rate = RateOfLastDays.Of([new(Monday, 0), new(Monday.PlusDays(1), 0)], 10, 10)!;

        rate.DaysNeeded.ShouldBeNull();
        rate.AtThatRate.ShouldBeNull();
    }

    [Fact]
    public void A_date_beyond_fifty_years_is_not_given()
        => RateOfLastDays.Of([new(Monday, 1)], 100_000, 10)!.AtThatRate.ShouldBeNull();

    [Fact]
    public void Without_days_there_is_no_rate() => RateOfLastDays.Of([], 10, 10).ShouldBeNull();
}
