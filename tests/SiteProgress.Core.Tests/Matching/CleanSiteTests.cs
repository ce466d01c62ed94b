using Shouldly;
using SiteProgress.Bench.Matching;
using SiteProgress.DemoGenerator.BiasStudy;
using Xunit;

namespace SiteProgress.Core.Tests.Matching;

/// <summary>No record that names its own pile is named a mistake; 20 sites a family are in <c>./bench matching</c>.</summary>
public sealed class CleanSiteTests
{
    [Theory]
    [InlineData(ErrorFamily.Independent)]
    [InlineData(ErrorFamily.SharedInSetUp)]
    [InlineData(ErrorFamily.HeavyTailedWithDrift)]
    public void Nothing_is_named_on_a_site_where_nothing_is_wrong(ErrorFamily family)
    {
        for (int seed = 1; seed <= 3; seed++) FalseAlarms.Of(family, seed).ShouldSatisfyAllConditions(
            found => found.Records.ShouldBeGreaterThan(2880),
            found => found.Named.ShouldBe(0),
            found => found.Elsewhere.ShouldBe(0));
    }
}
