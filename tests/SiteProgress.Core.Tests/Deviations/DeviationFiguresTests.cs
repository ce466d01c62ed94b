using Shouldly;
using SiteProgress.Core.Deviations;
using Xunit;

namespace SiteProgress.Core.Tests.Deviations;

/// <summary>
/// Figures of twenty deviations worked out with Python's exact fractions and its statistics module (stdev; median;
/// quantiles with n=20, method "inclusive", which is type 7 of Hyndman and Fan), and the constants of the Rayleigh distribution.
/// </summary>
public sealed class DeviationFiguresTests
{
    private static readonly (double East, double North)[] Twenty =
    [
        (.03, -.05), (-.06, .02), (.08, .04), (.01, -.02), (-.04, -.07), (.05, .06), (-.02, .01), (.07, -.03), (-.05, .05), (.02, .08),
        (.04, -.06), (-.08, -.01), (.06, .03), (-.03, .07), (0, -.04), (.05, -.08), (-.07, .02), (.03, .05), (-.01, -.03), (.02, 0),
    ];

    private static readonly DeviationFigures Figures = DeviationFigures.Of(Twenty.Select(one => At(one.East, one.North)).ToArray())!;

    [Fact]
    public void Means_are_those_of_exact_fractions()
    {
        Figures.Count.ShouldBe(20);
        Figures.East.MeanMetres.ShouldBe(0.005, 1e-15);
        Figures.North.MeanMetres.ShouldBe(0.002, 1e-15);
        Figures.MeanVectorMetres.ShouldBe(Math.Sqrt(0.005 * 0.005 + 0.002 * 0.002), 1e-15);
    }

    [Fact]
    public void Standard_deviations_are_those_of_another_program()
    {
        Figures.East.StandardDeviationMetres!.Value.ShouldBe(0.04817730411281797, 1e-15);
        Figures.North.StandardDeviationMetres!.Value.ShouldBe(0.048406176204455996, 1e-15);
    }

    [Fact]
    public void RMSE_and_accuracy_follow_the_NSSDA()
    {
        // Both sums of squares are 0.0446 by hand; FGDC-STD-007.3-1998: accuracy = 2.4477 RMSE_x where both RMSE are equal.
        Figures.East.RmseMetres.ShouldBe(Math.Sqrt(0.0446 / 20), 1e-15);
        Figures.North.RmseMetres.ShouldBe(Math.Sqrt(0.0446 / 20), 1e-15);
        Figures.RadialRmseMetres.ShouldBe(0.066783231428256, 1e-14);
        Figures.Accuracy95.RadiusMetres!.Value.ShouldBe(2.4477 * 0.047223, 5e-6);
        (Figures.Accuracy95.RadiusMetres.Value / Figures.RadialRmseMetres).ShouldBe(1.7308, 5e-5);
    }

    [Fact]
    public void Median_percentile_and_largest_are_those_of_another_program()
    {
        Figures.MedianRadialMetres.ShouldBe(0.07141085181396727, 1e-15);
        Figures.Percentile95RadialMetres.ShouldBe(0.0896875737110203, 1e-15);
        Figures.LargestRadialMetres.ShouldBe(0.09433981132056604, 1e-15);
    }

    [Theory]
    // Published constants of the circular normal distribution (CEP, 1 DRMS, R95, 2 DRMS, R99).
    [InlineData(0.5, 1.17741)]
    [InlineData(0.632121, 1.41421)]
    [InlineData(0.95, 2.447747)]
    [InlineData(0.981684, 2.82843)]
    [InlineData(0.99, 3.034854)]
    public void Radius_that_holds_a_share_is_that_of_Rayleigh(double share, double radius) => Nssda.CircularRadiusRatio(share).ShouldBe(radius, 2e-5);

    [Fact]
    public void Below_twenty_points_the_standard_gives_no_radius()
    {
        Nssda accuracy = DeviationFigures.Of(Twenty.Take(19).Select(one => At(one.East, one.North)).ToArray())!.Accuracy95;

        accuracy.RadiusMetres.ShouldBeNull();
        accuracy.WhyNone!.ShouldContain("at least 20");
    }

    [Fact]
    public void Where_one_axis_errs_far_more_the_standard_gives_no_radius()
    {
        Nssda accuracy = DeviationFigures.Of(Twenty.Select(one => At(one.East, one.North * 0.59)).ToArray())!.Accuracy95;

        accuracy.RadiusMetres.ShouldBeNull();
        accuracy.WhyNone!.ShouldContain("0.6");
        DeviationFigures.Of(Twenty.Select(one => At(one.East, one.North * 0.61)).ToArray())!.Accuracy95.RadiusMetres.ShouldNotBeNull();
    }

    [Fact]
    public void Within_the_limit_is_decided_on_the_unrounded_value_and_met_when_equal()
    {
        DeviationFigures figures = DeviationFigures.Of([At(0.15, 0), At(0.15000001, 0), At(0, 0.149)])!;

        figures.WithinLimit.ShouldBe(2);
        figures.WithinLimitRatio.ShouldBe(2.0 / 3, 1e-15);
    }

    [Fact]
    public void Each_pile_is_held_against_its_own_limit()
        => DeviationFigures.Of([At(0.16, 0), At(0.16, 0) with { Limit = new(0.18) }])!.WithinLimit.ShouldBe(1);

    [Fact]
    public void Of_nothing_there_are_no_figures() => DeviationFigures.Of([]).ShouldBeNull();

    [Fact]
    public void One_deviation_is_its_own_median()
    {
        DeviationFigures figures = DeviationFigures.Of([At(0.03, -0.04)])!;

        figures.MedianRadialMetres.ShouldBe(0.05, 1e-15);
        figures.Percentile95RadialMetres.ShouldBe(0.05, 1e-15);
        figures.East.StandardDeviationMetres.ShouldBeNull();
    }

    [Fact]
    public void A_position_at_the_end_of_the_world_breaks_nothing()
        => double.IsFinite(DeviationFigures.Of([At(1e9, -1e9), At(0, 0)])!.RadialRmseMetres).ShouldBeTrue();

    private static JudgedDeviation At(double east, double north) => new(new PositionDeviation(east, north, east, north), new(0.15));
}
