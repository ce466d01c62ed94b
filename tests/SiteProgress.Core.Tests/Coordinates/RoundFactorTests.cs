using Shouldly;
using SiteProgress.Core.Coordinates;
using Xunit;

namespace SiteProgress.Core.Tests.Coordinates;

public sealed class RoundFactorTests
{
    // Worked by hand from the series 1, 2, 5, 10.
    [Theory]
    [InlineData(1, 1)]
    [InlineData(1.99, 1)]
    [InlineData(2, 2)]
    [InlineData(4.99, 2)]
    [InlineData(5, 5)]
    [InlineData(9.99, 5)]
    [InlineData(10, 10)]
    [InlineData(1234, 1000)]
    [InlineData(0.0345, 0.02)]
    public void A_number_is_rounded_down_to_1_2_or_5_times_a_power_of_ten(double value, double expected)
        => RoundFactor.NotAbove(value).ShouldBe(expected, expected * 1e-12);

    [Theory]
    [InlineData(0)]
    [InlineData(-3)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void What_is_not_above_zero_has_no_round_number(double value)
        => Should.Throw<ArgumentOutOfRangeException>(() => RoundFactor.NotAbove(value));
}
