using MathNet.Numerics.Statistics;
using Shouldly;
using SiteProgress.Core.Deviations;
using Xunit;

namespace SiteProgress.Core.Tests.Deviations;

/// <summary>Ellipse, share and levels of a selection, and quantiles, against hand values, SciPy and MathNet.</summary>
public sealed class SelectionFiguresTests
{
    [Fact]
    public void Ellipse_of_a_covariance_by_hand()
    {
        // Eigenvalues of [[0.0049, 0.0015], [0.0015, 0.0025]] by hand: axes 0.074973 and 0.042179, 25.6701 degrees from east.
        ErrorEllipse ellipse = ErrorEllipse.Of(0.0049, 0.0025, 0.0015);

        ellipse.SemiMajorMetres.ShouldBe(0.074973, 5e-7);
        ellipse.SemiMinorMetres.ShouldBe(0.042179, 5e-7);
        ellipse.BearingDegrees.ShouldBe(64.3299, 5e-5);
    }

    [Theory]
    [InlineData(0.01, 0.0001, 0, 90)]
    [InlineData(0.0001, 0.01, 0, 0)]
    [InlineData(0.005, 0.005, -0.004, 135)]
    public void The_longer_axis_has_a_bearing_from_north(double east, double north, double covariance, double bearing)
        => ErrorEllipse.Of(east, north, covariance).BearingDegrees.ShouldBe(bearing, 1e-9);

    [Theory]
    // scipy.stats.binomtest(k, n).proportion_ci(0.95, "wilson"), SciPy 1.10.
    [InlineData(45, 50, 0.7863976856252034, 0.9565242350681095)]
    [InlineData(0, 20, 0.0, 0.16112515805281935)]
    [InlineData(20, 20, 0.8388748419471808, 1.0)]
    [InlineData(3348, 3447, 0.9651575484076789, 0.9763519468185455)]
    public void Interval_of_a_share_is_that_of_Wilson(int within, int count, double lower, double upper)
    {
        ShareInterval interval = ShareInterval.Of(within, count);

        interval.LowerRatio.ShouldBe(lower, 1e-12);
        interval.UpperRatio.ShouldBe(upper, 1e-12);
    }

    [Fact]
    public void Piles_that_share_all_of_their_set_ups_error_count_as_set_ups()
    {
        // Ten set-ups of three piles, all three within or none: the design effect is 3 (times 10/9, from n - 1).
        ShareInterval interval = ShareInterval.Of([3, 3, 3, 3, 3, 3, 3, 3, 0, 0], [3, 3, 3, 3, 3, 3, 3, 3, 3, 3]);

        interval.EffectiveCount.ShouldBe(9, 1e-9);
        interval.LowerRatio.ShouldBeLessThan(ShareInterval.Of(24, 30).LowerRatio);
    }

    [Fact]
    public void Where_all_are_within_the_set_ups_are_counted()
        => ShareInterval.Of([3, 3, 2], [3, 3, 2]).EffectiveCount.ShouldBe(3);

    [Fact]
    public void Levels_have_their_own_limits_up_and_down()
    {
        LevelFigures tip = LevelFigures.Of([new(0.2, new(0.2, null)), new(0.2000001, new(0.2, null)), new(-3, new(0.2, null))])!;
        LevelFigures top = LevelFigures.Of([new(0.3, new(0.3, 0.3)), new(-0.3, new(0.3, 0.3)), new(-0.31, new(0.3, 0.3))])!;

        tip.WithinLimit.ShouldBe(2);
        top.WithinLimit.ShouldBe(2);
        tip.Accuracy95Metres.ShouldBeNull();
    }

    [Fact]
    public void Vertical_accuracy_is_1_9600_RMSE()
        // FGDC-STD-007.3-1998, vertical accuracy.
        => LevelFigures.Of(Enumerable.Range(0, 20).Select(index => new JudgedLevel(index % 2 == 0 ? 0.1 : -0.1, new(0.3, 0.3))).ToArray())!
            .Accuracy95Metres!.Value.ShouldBe(0.19600, 1e-5);

    [Fact]
    public void Quantiles_are_those_of_another_library_whatever_the_order()
    {
        Random random = new(20261125);
        for (int count = 1; count < 200; count += 7)
        {
            double[] values = Enumerable.Range(0, count).Select(_ => Math.Round(random.NextDouble() * 20)).ToArray();
            foreach (double share in new[] { 0, 0.05, 0.25, 0.5, 0.95, 1 })
                Quantiles.Of([.. values], share).ShouldBe(values.QuantileCustom(share, QuantileDefinition.R7), 1e-12);
        }
    }

    [Fact]
    public void Means_spreads_and_ellipse_are_those_of_another_library()
    {
        Random random = new(7);
        double[] east = Enumerable.Range(0, 501).Select(_ => random.NextDouble() - 0.4).ToArray();
        double[] north = east.Select(value => (value * 0.3) + random.NextDouble()).ToArray();

        DeviationFigures figures = DeviationFigures.Of(east.Zip(north, (e, n) => new JudgedDeviation(new PositionDeviation(e, n, n, e), new(0.5))).ToArray())!;

        figures.East.MeanMetres.ShouldBe(east.Mean(), 1e-14);
        figures.North.StandardDeviationMetres!.Value.ShouldBe(north.StandardDeviation(), 1e-13);
        figures.Across.RmseMetres.ShouldBe(east.RootMeanSquare(), 1e-14);
        double[] variances = [Math.Pow(figures.Ellipse!.SemiMajorMetres, 2), Math.Pow(figures.Ellipse.SemiMinorMetres, 2)];
        variances.Sum().ShouldBe(east.Variance() + north.Variance(), 1e-13);
        (variances[0] * variances[1]).ShouldBe((east.Variance() * north.Variance()) - Math.Pow(east.Covariance(north), 2), 1e-13);
    }
}
