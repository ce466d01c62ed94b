using NodaTime;
using Shouldly;
using SiteProgress.Core.Forecast;
using SiteProgress.Core.Piles;
using Xunit;

namespace SiteProgress.Core.Tests.Forecast;

/// <summary>
/// Resampling single days has an exact answer: the distribution of the sum of n days by convolution. The figures below were worked
/// out so, from daily counts published with two write-ups of the method (a blog post of 2024, an open forecasting guide) and one
/// invented set with days of weather.
/// </summary>
public sealed class FinishForecastTests
{
    private static readonly LocalDate Last = new(2026, 5, 29);
    private static readonly int[] Published = [1, 3, 5, 3, 7, 8, 0, 5, 3, 1, 8, 2];
    private static readonly int[] Example = [3, 5, 4, 2, 6, 4, 5, 3, 7, 4, 5, 6, 3, 4, 5];
    private static readonly int[] Weather = [18, 22, 0, 15, 25, 20, 19, 0, 21, 24];
    private static readonly ForecastOptions SingleDays = new(Runs: 40_000, BlockDays: 1, RampDays: 0, LeastDaysOfMonth: int.MaxValue, DoubtHistory: false);

    public static TheoryData<int[], int, int[], int, double> Exact => new()
    {
        { Published, 100, [26, 30, 30, 33], 29, 0.7921 },
        { Published, 100, [26, 30, 30, 33], 30, 0.8576 },
        { Published, 120, [32, 35, 36, 39], 36, 0.8787 },
        { Example, 100, [23, 24, 25, 26], 24, 0.8293 },
        { Example, 100, [23, 24, 25, 26], 25, 0.9469 },
        { Weather, 500, [31, 33, 34, 36], 34, 0.8729 },
    };

    [Theory]
    [MemberData(nameof(Exact))]
    public void Days_drawn_one_by_one_give_the_convolution(int[] counts, int toDo, int[] percentiles, int by, double share)
    {
        FinishForecast forecast = FinishForecast.Of(Input(counts, toDo), SingleDays)!;

        // Four standard errors of a share among 40,000 runs are below 0.01.
        foreach ((double ratio, int days) in new[] { 0.5, 0.8, 0.85, 0.95 }.Zip(percentiles))
        {
            RatioBy(forecast, days).ShouldBeGreaterThanOrEqualTo(ratio - 0.01);
            RatioBy(forecast, days - 1).ShouldBeLessThan(ratio + 0.01);
        }

        forecast.Chances.Single(chance => chance.Day == Last.PlusDays(by)).Ratio.ShouldBe(share, 0.01);
        // Where the exact share of the day is a half to within the draw's error, the day after it is as right.
        forecast.Site.P50.ShouldNotBeNull().ShouldBeInRange(Last.PlusDays(percentiles[0]), Last.PlusDays(percentiles[0] + (RatioBy(forecast, percentiles[0]) < 0.5 ? 1 : 0)));
    }

    [Theory]
    [InlineData(0.5, 88)]
    [InlineData(0.15, 82)]
    [InlineData(0.05, 78)]
    public void Counts_of_twenty_days_give_the_convolution(double share, int atLeast)
    {
        Simulation simulation = new(Input(Example, 1), SingleDays);
        int[] done = Enumerable.Range(0, 40_000).Select(_ => simulation.DoneIn(20)).Order().ToArray();

        done[(int)(share * done.Length)].ShouldBe(atLeast);
    }

    [Fact]
    public void The_same_seed_gives_the_same_forecast_and_another_seed_another()
    {
        ForecastOptions options = new(Runs: 500);

        Ratios(options).ShouldBe(Ratios(options));
        Ratios(options with { Seed = 7 }).ShouldNotBe(Ratios(options));

        static double[] Ratios(ForecastOptions options) => FinishForecast.Of(Input(Weather, 500), options)!.Chances.Select(one => one.Ratio).ToArray();
    }

    [Fact]
    public void From_P10_to_P90_lie_more_than_eight_of_ten_runs_and_all_of_them_where_there_is_no_chance()
    {
        FinishForecast forecast = FinishForecast.Of(Input(Weather, 60), new ForecastOptions(Runs: 2_000))!;
        double before = forecast.Chances.Where(one => one.Day < forecast.Site.P10).Select(one => one.Ratio).DefaultIfEmpty(0).Last();
        double until = forecast.Chances.Last(one => one.Day <= forecast.Site.P90).Ratio;

        forecast.Site.InsideRatio!.Value.ShouldBe(until - before, 1e-9);
        forecast.Site.InsideRatio!.Value.ShouldBeGreaterThan(0.8);
        FinishForecast.Of(Input([10, 10], 40), SingleDays)!.Site.InsideRatio.ShouldBe(1);
    }

    [Fact]
    public void Six_hundred_piles_at_twenty_a_day_on_three_days_of_four_take_forty_days()
        // Net working time divided by workability; common practice, no source.
        => FinishForecast.Of(Input([20, 20, 20, 0], 600), SingleDays)!.Site.P50.ShouldBe(Last.PlusDays(40));

    [Fact]
    public void Weather_that_stays_together_makes_the_finish_less_sure_and_not_later()
    {
        int[] counts = [.. Enumerable.Range(0, 60).Select(day => day / 5 % 2 == 0 ? 10 : 0)];

        FinishDates single = FinishForecast.Of(Input(counts, 300), SingleDays)!.Site;
        FinishDates blocks = FinishForecast.Of(Input(counts, 300), SingleDays with { BlockDays = 5 })!.Site;

        Width(blocks).ShouldBeGreaterThan(Width(single) * 6 / 5);
        Math.Abs(Period.DaysBetween(single.P50!.Value, blocks.P50!.Value)).ShouldBeLessThanOrEqualTo(3);
    }

    [Fact]
    public void A_short_history_gives_a_wider_forecast_once_it_is_doubted()
    {
        ForecastInput input = Input([.. Weather, .. Weather], 500);

        Width(FinishForecast.Of(input, SingleDays with { DoubtHistory = true })!.Site).ShouldBeGreaterThan(Width(FinishForecast.Of(input, SingleDays)!.Site));
    }

    [Fact]
    public void Rest_days_and_holidays_are_not_worked()
    {
        // 2026-05-29 is a Friday; ten a day without chance: Saturday, Monday to Wednesday without Tuesday, Thursday.
        WorkPlan plan = WorkPlan.Empty with { RestWeekdays = [IsoDayOfWeek.Sunday], Holidays = [new LocalDate(2026, 6, 2)] };

        FinishForecast.Of(Input([10, 10], 40) with { Plan = plan }, SingleDays)!.Site.P90.ShouldBe(new LocalDate(2026, 6, 4));
    }

    [Fact]
    public void A_barge_that_leaves_leaves_its_work_to_the_others_and_one_that_comes_takes_some()
    {
        ForecastInput two = Steady(("Tern", 10), ("Plover", 10)) with { Zones = [new ZoneLeft("A", 200, 200)] };

        Days(two).ShouldBe(10);
        Days(two with { Plan = Plan(new BargePlan("Plover", null, Last, [])) }).ShouldBe(20);
        Days(two with { Plan = Plan(new BargePlan("Plover", null, Last.PlusDays(5), [])) }).ShouldBe(15);
        Days(two with { Barges = [.. two.Barges, new BargeHistory("Curlew", [], null)], Plan = Plan(new BargePlan("Curlew", Last.PlusDays(6), null, [])) }).ShouldBe(9);
    }

    [Fact]
    public void Each_zone_is_finished_in_the_order_its_barges_are_planned_to_build()
    {
        ForecastInput input = Steady(("Tern", 10)) with
        {
            Zones = [new ZoneLeft("A", 50, 50), new ZoneLeft("B", 30, 30)],
            Plan = Plan(new BargePlan("Tern", null, null, ["B", "A"])),
        };

        FinishForecast forecast = FinishForecast.Of(input, SingleDays)!;

        forecast.Zones.Select(zone => (zone.Zone, zone.Finish.P50)).ShouldBe([("A", Last.PlusDays(8)), ("B", Last.PlusDays(3))]);
    }

    [Fact]
    public void A_zone_that_is_done_is_done_before_the_first_day_and_a_site_without_history_has_no_forecast()
    {
        FinishForecast.Of(Steady(("Tern", 10)) with { Zones = [new ZoneLeft("A", 0, 0)] }, SingleDays)!.Site.P50.ShouldBe(Last);
        FinishForecast.Of(Input([], 10), SingleDays).ShouldBeNull();
    }

    [Fact]
    public void Without_any_output_the_work_is_never_done() => FinishForecast.Of(Input([0, 0], 10), SingleDays with { Runs = 10 })!.Site.P50.ShouldBeNull();

    [Fact]
    public void Rework_adds_its_share()
    {
        // One set-up of five is done again: 1,000 become about 1,200.
        ForecastInput input = Steady(("Tern", 10)) with { Zones = [new ZoneLeft("A", 1000, 1000)], Rework = new ReworkHistory(1000, 200) };

        Days(input).ShouldBeInRange(118, 122);
    }

    [Fact]
    public void The_days_of_a_barges_ramp_up_are_not_drawn_from_and_a_new_barge_ramps_up_like_the_others()
    {
        BargeHistory tern = new("Tern", Dated([.. Enumerable.Repeat(5, 10), .. Enumerable.Repeat(10, 20)]), null);
        ForecastOptions options = SingleDays with { RampDays = 10 };
        ForecastInput one = new(Last, [tern], [new ZoneLeft("A", 200, 200)], WorkPlan.Empty, default);

        FinishForecast.Of(one, options)!.Site.P90.ShouldBe(Last.PlusDays(20));
        // Tern 10 a day; Curlew 5 a day on its first ten days, 10 after: 150 by day 10, the rest of 50 in three more.
        ForecastInput two = one with { Barges = [tern, new BargeHistory("Curlew", [], null)] };
        FinishForecast.Of(two, options)!.Site.P50.ShouldBe(Last.PlusDays(13));
    }

    [Fact]
    public void Days_of_the_same_month_are_drawn_where_there_are_enough()
    {
        // A year ago June was half as good as May; the coming days are in June.
        DayOutput[] days = [.. Enumerable.Range(0, 20).Select(day => new DayOutput(new LocalDate(2025, 6, 1).PlusDays(day), 5)), .. Dated([.. Enumerable.Repeat(10, 20)])];
        ForecastInput input = new(new LocalDate(2026, 5, 31), [new BargeHistory("Tern", days, null)], [new ZoneLeft("A", 100, 100)], WorkPlan.Empty, default);

        FinishForecast.Of(input, SingleDays with { LeastDaysOfMonth = 15 })!.Site.P50.ShouldBe(new LocalDate(2026, 6, 20));
    }

    [Fact]
    public void The_chance_of_a_day_is_the_share_of_runs_done_by_it()
    {
        FinishForecast forecast = FinishForecast.Of(Input(Published, 100) with { Target = Last.PlusDays(30) }, SingleDays)!;

        forecast.TargetRatio!.Value.ShouldBe(0.8576, 0.01);
    }

    [Fact]
    public void A_tenth_less_output_moves_the_finish_by_a_ninth_and_a_gone_barge_by_more()
    {
        IReadOnlyList<AssumptionShift> shifts = Assumptions.Of(
            Steady(("Tern", 10), ("Plover", 10)) with { Zones = [new ZoneLeft("A", 1800, 1800)] }, SingleDays with { Runs = 200 });

        shifts[0].Assumption.ShouldContain("leaves today");
        shifts[0].Days.ShouldBe(90);
        shifts.Single(one => one.Assumption.Contains("tenth less", StringComparison.Ordinal)).Days.ShouldBe(10);
        shifts.Single(one => one.Assumption.StartsWith("All barges do a tenth more", StringComparison.Ordinal)).Days.ShouldBe(-8);
    }

    [Fact]
    public void The_back_test_knows_only_what_was_known_then()
    {
        // Ten a day for six weeks, then five a day for four: a forecast made in week six must still expect ten.
        int[] counts = [.. Enumerable.Repeat(10, 42), .. Enumerable.Repeat(5, 28)];
        IReadOnlyList<BackTestWeek> weeks = BackTest.Of(Input(counts, 100), SingleDays with { Runs = 200 });

        BackTestWeek sixth = weeks.Last(week => week.Day <= Last.PlusDays(-28));
        sixth.MiddleSetUps.ShouldBe(280);
        sixth.DoneSetUps.ShouldBe(weeks.Count == 0 ? 0 : Counted(counts, sixth.Day));
        sixth.Inside.ShouldBe(false);
        weeks[^1].DoneSetUps.ShouldBeNull();
    }

    private static double RatioBy(FinishForecast forecast, int days) => forecast.Chances.LastOrDefault(chance => chance.Day <= Last.PlusDays(days)).Ratio;

    private static int Counted(int[] counts, LocalDate day)
        => Dated(counts).Where(one => one.Day > day && one.Day <= day.PlusDays(28)).Sum(one => one.SetUps);

    private static int Days(ForecastInput input) => Period.DaysBetween(Last, FinishForecast.Of(input, SingleDays with { Runs = 2000 })!.Site.P50!.Value);

    private static int Width(FinishDates finish) => Period.DaysBetween(finish.P10!.Value, finish.P90!.Value);

    private static WorkPlan Plan(params BargePlan[] barges) => WorkPlan.Empty with { Barges = barges };

    private static DayOutput[] Dated(int[] counts) => counts.Select((count, index) => new DayOutput(Last.PlusDays(index + 1 - counts.Length), count)).ToArray();

    private static ForecastInput Input(int[] counts, int toDo)
        => new(Last, [new BargeHistory("Tern", Dated(counts), null)], [new ZoneLeft("A", toDo, toDo)], WorkPlan.Empty, default);

    private static ForecastInput Steady(params (string Barge, int PerDay)[] barges)
        => new(Last, barges.Select(one => new BargeHistory(one.Barge, Dated([.. Enumerable.Repeat(one.PerDay, 20)]), null)).ToArray(), [], WorkPlan.Empty, default);
}
