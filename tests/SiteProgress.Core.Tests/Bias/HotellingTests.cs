using MathNet.Numerics.LinearAlgebra;
using Shouldly;
using SiteProgress.Core.Bias;
using Xunit;

namespace SiteProgress.Core.Tests.Bias;

/// <summary>Hotelling's test against worked examples and SciPy 1.10.</summary>
public sealed class HotellingTests
{
    /// <summary>Twenty deviations, every one of them within 150 mm: mean (5, 2) mm.</summary>
    private static readonly double[] East = [.03, -.06, .08, .01, -.04, .05, -.02, .07, -.05, .02, .04, -.08, .06, -.03, 0, .05, -.07, .03, -.01, .02];

    private static readonly double[] North = [-.05, .02, .04, -.02, -.07, .06, .01, -.03, .05, .08, -.06, -.01, .03, .07, -.04, -.08, .02, .05, -.03, 0];

    [Fact]
    public void Three_observations_of_two_quantities_give_seven_ninths()
        // Johnson and Wichern, Applied Multivariate Statistical Analysis, example 5.1 (recomputed by hand).
        => Hotelling.Of([6, 10, 8], [9, 6, 3], 9, 5).TSquared.ShouldBe(7.0 / 9, 1e-12);

    [Fact]
    public void Twenty_observations_of_three_quantities_give_the_printed_value()
    {
        // Johnson and Wichern, example 5.2: mean and covariance as printed; T squared 9.74, 10 % limit 8.18.
        Matrix<double> covariance = Matrix<double>.Build.DenseOfArray(new[,] { { 2.879, 10.010, -1.810 }, { 10.010, 199.788, -5.640 }, { -1.810, -5.640, 3.628 } });

        Hotelling test = Hotelling.Of(20, Vector<double>.Build.Dense([4.640 - 4, 45.400 - 50, 9.965 - 10]), covariance);

        test.TSquared.ShouldBe(9.74, 5e-3);
        Hotelling.Limit(3, 20, 0.10).ShouldBe(8.18, 1e-2);
        test.Probability.ShouldBeLessThan(0.10);
    }

    [Fact]
    public void Twenty_piles_without_a_bias_are_not_blamed()
    {
        Hotelling test = Hotelling.Of(East, North);

        // SciPy 1.10, numpy.cov and scipy.stats.f: 0.26144418, 0.88426572; limit 7.50406509.
        test.TSquared.ShouldBe(0.2614441787539914, 1e-12);
        test.Probability.ShouldBe(0.8842657234131558, 1e-10);
        Hotelling.Limit(2, 20, 0.05).ShouldBe(7.504065085285995, 1e-8);
    }

    [Fact]
    public void A_shift_of_40_mm_is_proven_though_every_pile_is_within_150_mm()
    {
        double[] shifted = Array.ConvertAll(East, east => east + 0.04);

        Hotelling test = Hotelling.Of(shifted, North);

        shifted.Zip(North).ShouldAllBe(one => Math.Sqrt((one.First * one.First) + (one.Second * one.Second)) < 0.150);
        test.TSquared.ShouldBe(17.65115479889461, 1e-9);
        test.Probability.ShouldBe(0.0027039175380059897, 1e-10);
    }

    [Theory]
    // SciPy 1.10, scipy.stats.f.sf.
    [InlineData(2, 100, 40, 1.723354985368031e-13)]
    [InlineData(5, 17, 3.2, 0.032340077725828635)]
    [InlineData(2, 60, 300, 5.730855330116814e-32)]
    public void Tails_keep_their_digits_far_out(double between, double within, double f, double tail)
        => Hotelling.UpperTail(between, within, f).ShouldBe(tail, tail * 1e-9);

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    public void Too_few_observations_prove_nothing(int count) => Hotelling.Of(East.AsSpan(0, count), North.AsSpan(0, count)).Probability.ShouldBe(1);

    [Fact]
    public void Observations_all_alike_prove_nothing() => Hotelling.Of([.1, .1, .1, .1], [.2, .2, .2, .2]).Probability.ShouldBe(1);
}
