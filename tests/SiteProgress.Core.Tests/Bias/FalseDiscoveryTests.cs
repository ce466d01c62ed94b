using Shouldly;
using SiteProgress.Core.Bias;
using Xunit;

namespace SiteProgress.Core.Tests.Bias;

/// <summary>The example of Benjamini and Hochberg (1995), section 3.2: fifteen hypotheses, four of them rejected at a bound of 5 %.</summary>
public sealed class FalseDiscoveryTests
{
    [Fact]
    public void Four_of_the_fifteen_are_singled_out()
    {
        double[] adjusted = FalseDiscovery.Adjusted(
            [.0001, .0004, .0019, .0095, .0201, .0278, .0298, .0344, .0459, .3240, .4262, .5719, .6528, .7590, 1.000]);

        adjusted.Count(bound => bound <= 0.05).ShouldBe(4);
        adjusted[0].ShouldBe(.0001 * 15, 1e-12);
        adjusted.ShouldBeInOrder();
    }

    [Fact]
    public void Order_does_not_matter() => FalseDiscovery.Adjusted([0.5, 0.01]).ShouldBe([0.5, 0.02]);

    [Fact]
    public void No_test_gives_no_bound() => FalseDiscovery.Adjusted([]).ShouldBeEmpty();
}
