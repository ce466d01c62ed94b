using Shouldly;
using SiteProgress.Core.Progress;
using Xunit;

namespace SiteProgress.Core.Tests.Progress;

/// <summary>
/// The formulas of Lipke and Henderson, "Earned Schedule: an emerging enhancement to earned value management" (2006), slides 16
/// and 24, worked by hand for a plan of ten periods.
/// </summary>
public sealed class EarnedScheduleTests
{
    private static readonly double[] Plan = [20, 60, 120, 200, 300, 400, 480, 540, 580, 600];

    [Theory]
    [InlineData(1, 10, 0.5000, 0.5000, 0.5000, 20.000, 1.0556)]
    [InlineData(2, 40, 1.5000, 0.7500, 0.6667, 13.333, 1.0625)]
    [InlineData(3, 90, 2.5000, 0.8333, 0.7500, 12.000, 1.0714)]
    [InlineData(4, 150, 3.3750, 0.8438, 0.7500, 11.852, 1.1042)]
    [InlineData(5, 220, 4.2000, 0.8400, 0.7333, 11.905, 1.1600)]
    [InlineData(6, 290, 4.9000, 0.8167, 0.7250, 12.245, 1.2750)]
    public void The_table_worked_by_hand_comes_out(int actual, double earned, double es, double timeIndex, double volumeIndex, double estimate, double toComplete)
    {
        EarnedSchedule standing = EarnedSchedule.Of(Plan, earned, actual)!;

        standing.EarnedPeriods.ShouldBe(es, 5e-5);
        standing.TimeIndexRatio!.Value.ShouldBe(timeIndex, 5e-5);
        standing.VolumeIndexRatio!.Value.ShouldBe(volumeIndex, 5e-5);
        standing.EstimatePeriods!.Value.ShouldBe(estimate, 5e-4);
        standing.ToCompleteIndexRatio!.Value.ShouldBe(toComplete, 5e-5);
        standing.VariancePeriods.ShouldBe(es - actual, 5e-5);
        // With the index as performance factor both published forms of the estimate are one number.
        standing.EstimatePeriods.Value.ShouldBe(actual + ((10 - standing.EarnedPeriods) / standing.TimeIndexRatio.Value), 1e-9);
    }

    [Fact]
    public void Done_late_the_volume_index_is_one_and_the_index_in_time_is_not()
    {
        EarnedSchedule standing = EarnedSchedule.Of(Plan, 600, 12)!;

        standing.VolumeIndexRatio.ShouldBe(1);
        standing.TimeIndexRatio!.Value.ShouldBe(10.0 / 12, 1e-12);
        standing.ToCompleteIndexRatio.ShouldBeNull();
    }

    [Fact]
    public void Before_anything_is_earned_there_is_no_estimate()
    {
        EarnedSchedule standing = EarnedSchedule.Of(Plan, 0, 3)!;

        standing.EarnedPeriods.ShouldBe(0);
        standing.EstimatePeriods.ShouldBeNull();
    }

    [Fact]
    public void A_stretch_without_planned_work_does_not_divide_by_zero()
        => EarnedSchedule.Of([10, 20, 20, 20, 30], 25, 4)!.EarnedPeriods.ShouldBe(4.5, 1e-12);

    [Fact]
    public void What_is_planned_after_the_last_pile_is_no_period() => EarnedSchedule.Of([10, 20, 20, 20], 20, 2)!.PlannedPeriods.ShouldBe(2);

    [Fact]
    public void A_plan_without_piles_says_nothing() => EarnedSchedule.Of([0, 0], 3, 1).ShouldBeNull();

    [Fact]
    public void A_plan_that_falls_is_refused() => Should.Throw<ArgumentException>(() => EarnedSchedule.Of([5, 4], 1, 1));
}
