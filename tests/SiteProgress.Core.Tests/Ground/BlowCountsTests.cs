using NodaTime;
using Shouldly;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Ground;
using Xunit;

namespace SiteProgress.Core.Tests.Ground;

/// <summary>Penetration tests before and after the piles, and N that may be expected.</summary>
public sealed class BlowCountsTests
{
    private static readonly TestedPile[] Piles =
    [
        new("A-1", "A", new(0, 0), 2.1, new LocalDate(2026, 3, 10)),
        new("A-2", "A", new(50, 0), 2.1, null),
    ];

    [Theory]
    [InlineData(1, 1, 9, "A-1", TestMoment.Before)]
    [InlineData(1, 1, 10, "A-1", TestMoment.NotKnown)]
    [InlineData(1, 1, 11, "A-1", TestMoment.After)]
    [InlineData(50, 2.1, 20, "A-2", TestMoment.Before)]
    [InlineData(25, 0, 20, null, TestMoment.NotKnown)]
    [InlineData(1, 1, null, "A-1", TestMoment.NotKnown)]
    public void A_test_is_before_or_after_the_pile_beside_it(double x, double y, int? day, string? pile, TestMoment moment)
    {
        TestBesidePile beside = BlowCounts.Beside([Test(x, y, day, 5, 10)], Piles).ShouldHaveSingleItem();

        (beside.Pile?.Number, beside.Moment).ShouldBe((pile, moment));
    }

    [Fact]
    public void Counts_stand_together_by_zone_and_level()
    {
        IReadOnlyList<BlowStep> steps = BlowCounts.ByLevel(
            BlowCounts.Beside([Test(0, 0, 1, 5, 4), Test(0, 0, 1, 5.5, 6), Test(0, 0, 20, 5, 18), Test(0, 0, 20, 7, null), Test(300, 0, 20, 5, 99)], Piles), 1);

        // The ground is at -10 m, so 5 and 5.5 m down are levels -15 and -15.5: a step takes its upper end from the one above.
        steps.Select(step => (step.TopLevelMetres, step.BottomLevelMetres, string.Join(' ', step.Before), string.Join(' ', step.After))).ShouldBe([(-14, -15, "4", "18"), (-15, -16, "6", "")]);
    }

    // Values worked by hand from methods B and C as Kitazume (2005) has them, from memory: e_max, e_min, Dr before, e before, e after, Dr after, N clean, factor, N.
    [Theory]
    [InlineData(5, 98, 10, 0.10, 1.2000, 0.6800, 36.0147, 1.0127, 0.8115, 74.7209, 21.5226, 0.5400, 13.9222)]
    [InlineData(8, 100, 15, 0.15, 1.3, 0.72, 45.2844, 1.0374, 0.7317, 97.9745, 37.4472, 0.4502, 21.2569)]
    [InlineData(5, 60, 5, 0.12, 1.1, 0.64, 40.9918, 0.9114, 0.6821, 90.8554, 24.5628, 0.6935, 18.5673)]
    public void N_is_expected_by_the_void_ratio_method(
        double before, double stress, double fines, double ratio, double largest, double smallest, double densityBefore, double voidsBefore, double voidsAfter, double densityAfter, double clean, double factor, double blows)
    {
        ExpectedBlows expected = ExpectedBlows.Of(before, stress, fines, ratio);

        expected.LargestVoidRatio.ShouldBe(largest, 5e-5);
        expected.SmallestVoidRatio.ShouldBe(smallest, 5e-5);
        expected.DensityBeforePercent.ShouldBe(densityBefore, 5e-5);
        expected.VoidRatioBefore.ShouldBe(voidsBefore, 5e-5);
        expected.VoidRatioAfter.ShouldBe(voidsAfter, 5e-5);
        expected.DensityAfterPercent.ShouldBe(densityAfter, 5e-5);
        expected.CleanBlows.ShouldBe(clean, 5e-5);
        expected.FinesFactor.ShouldBe(factor, 5e-5);
        expected.Blows.ShouldBe(blows, 5e-5);
        expected.IsDenserThanCanBe.ShouldBeFalse();
    }

    [Fact]
    public void What_the_method_cannot_say_is_not_said()
    {
        ExpectedBlows.Of(5, 98, 1, 0.1).FinesFactor.ShouldBe(1);
        ExpectedBlows.Of(5, 98, 10, 0.4).IsDenserThanCanBe.ShouldBeTrue();
        Should.Throw<ArgumentOutOfRangeException>(() => ExpectedBlows.Of(5, 98, 0, 0.1));
        Should.Throw<ArgumentOutOfRangeException>(() => ExpectedBlows.Of(5, 98, 10, 1));
        Should.Throw<ArgumentOutOfRangeException>(() => ExpectedBlows.Of(-1, 98, 10, 0.1));
    }

    private static PlacedTest Test(double x, double y, int? day, double depth, int? blows) => new(
        1, new PenetrationTest("BH", null, -10, depth, blows, null, null, null, null, null, null, null, day is { } one ? new LocalDate(2026, 3, one) : null), new SiteCoordinate(x, y));
}
