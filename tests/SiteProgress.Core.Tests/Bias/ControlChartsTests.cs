using Shouldly;
using SiteProgress.Core.Bias;
using Xunit;

namespace SiteProgress.Core.Tests.Bias;

/// <summary>The worked examples of the NIST/SEMATECH e-Handbook of Statistical Methods, chapter 6.3.2.</summary>
public sealed class ControlChartsTests
{
    [Fact]
    public void EWMA_of_section_6_3_2_4()
    {
        double[] data = [52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];
        double[] printed =
            [50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52, 50.05, 49.38, 49.92, 50.73, 51.23, 51.94, 51.99];

        double[] means = ControlCharts.Ewma(data, 50, 0.3);
        ControlLimits limits = ControlCharts.EwmaLimits(50, 2.0539, 0.3, 3);

        for (int index = 0; index < printed.Length; index++) means[index].ShouldBe(printed[index], 0.0101);
        limits.Upper.ShouldBe(52.5884, 1e-3);
        limits.Lower.ShouldBe(47.4115, 1e-3);
        means.ShouldAllBe(mean => mean < limits.Upper && mean > limits.Lower);
        // Before many values have come in the limits are nearer: k s lambda for the first, by hand.
        ControlCharts.EwmaLimits(50, 2.0539, 0.3, 3, 1).Upper.ShouldBe(50 + (3 * 2.0539 * 0.3), 1e-12);
    }

    [Fact]
    public void Individuals_of_section_6_3_2_2()
    {
        ControlLimits limits = ControlCharts.Individuals([49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1]);

        limits.Centre.ShouldBe(50.81, 1e-12);
        // Printed with d2 = 1.128, four digits; 2/sqrt(pi) moves the third decimal.
        limits.Upper.ShouldBe(55.8041, 2e-3);
        limits.Lower.ShouldBe(45.8159, 2e-3);
    }

    [Fact]
    public void Individuals_of_five_values_by_hand()
    {
        // Mean 11.6, mean range 1.5, sigma = 1.5 sqrt(pi)/2 = 1.32934.
        ControlLimits limits = ControlCharts.Individuals([10, 12, 11, 13, 12]);

        limits.Upper.ShouldBe(15.588021164537412, 1e-9);
        limits.Lower.ShouldBe(7.611978835462588, 1e-9);
    }

    [Fact]
    public void CUSUM_of_section_6_3_2_3()
    {
        double[] data =
        [
            324.925, 324.675, 324.725, 324.350, 325.350, 325.225, 324.125, 324.525, 325.225, 324.600,
            324.625, 325.150, 328.325, 327.250, 327.825, 328.500, 326.675, 327.775, 326.875, 328.350,
        ];

        (double[] high, double[] low) = ControlCharts.Cusum(data, 325, 0.3175);

        high[4].ShouldBe(0.0325, 1e-9);
        high[12].ShouldBe(3.0075, 1e-9);
        high[13].ShouldBe(4.9400, 1e-9);
        high[19].ShouldBe(19.0350, 1e-9);
        low.Max().ShouldBe(0.7150, 1e-9);
        // The decision value is 4.1959: the fourteenth value is the first signal.
        Array.FindIndex(high, sum => sum > 4.1959).ShouldBe(13);
    }
}
