using NodaTime;
using Shouldly;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Ground;
using Xunit;

namespace SiteProgress.Core.Tests.Ground;

/// <summary>Heave between two surveys, and what may be expected of it.</summary>
public sealed class SeabedHeaveTests
{
    private static readonly SiteCoordinate[] Block = [new(0, 0), new(40, 0), new(40, 20), new(0, 20)];

    [Fact]
    public void A_mound_has_the_volume_of_its_shape()
    {
        // A wedge that rises from 0 at x = 0 to 2 m at x = 40: 40 x 20 x 2 / 2 = 800 m³ (plane geometry).
        HeaveReview review = SeabedHeave.Of(Block, Survey(_ => -12), Survey(at => -12 + (at.XMetres / 20)), 2);

        review.VolumeCubicMetres.ShouldBe(800, 1e-6);
        review.MeanMetres!.Value.ShouldBe(1, 1e-9);
        review.CoveredRatio.ShouldBe(1);
    }

    [Fact]
    public void Only_what_both_surveys_cover_is_counted_and_how_much_that_is_is_said()
    {
        SeabedSurvey half = new("half", new LocalDate(2026, 5, 1), [.. Survey(_ => -11).Soundings.Where(sounding => sounding.At.XMetres < 20)]);

        HeaveReview review = SeabedHeave.Of(Block, Survey(_ => -12), half, 2);

        (review.CoveredRatio, review.MeanMetres!.Value, review.VolumeCubicMetres).ShouldBe((0.5, 1, 400));
        SeabedHeave.Of(Block, Survey(_ => -12), new SeabedSurvey("none", new LocalDate(2026, 5, 1), []), 2).MeanMetres.ShouldBeNull();
    }

    [Fact]
    public void A_square_belongs_to_the_zone_its_middle_lies_in()
    {
        SiteCoordinate[] corner = [new(0, 0), new(40, 0), new(0, 20)];

        HeaveReview review = SeabedHeave.Of(corner, Survey(_ => -12), Survey(_ => -11.5), 1);

        review.SquaresOfZone.ShouldBeInRange(390, 410);
        review.VolumeCubicMetres.ShouldBe(0.5 * review.SquaresOfZone, 1e-6);
    }

    [Fact]
    public void Squares_too_small_for_the_zone_are_refused()
        => Should.Throw<ArgumentOutOfRangeException>(() => SeabedHeave.Of(Block, Survey(_ => -12), Survey(_ => -12), 0.01));

    // Worked from the formula as remembered: L 10 m a_s 0.5, L 15 m a_s 0.7, L 20 m a_s 0.3, L 12 m a_s 0.6.
    [Theory]
    [InlineData(0.5, 10, 0.57030)]
    [InlineData(0.7, 15, 0.54807)]
    [InlineData(0.3, 20, 0.35895)]
    [InlineData(0.6, 12, 0.55918)]
    public void Upheaval_follows_the_formula(double ratio, double length, double expected)
    {
        ExpectedHeave.UpheavalRatio(ratio, length).ShouldBe(expected, 5e-6);
        ExpectedHeave.IsWithinItsRange(ratio, length).ShouldBeTrue();
        ExpectedHeave.IsWithinItsRange(ratio, 25).ShouldBeFalse();
    }

    // IHO S-44, edition 6, table 1, special order: a 0.25 m, b 0.0075; values as an open calculator of the orders gives them.
    [Theory]
    [InlineData(0, 0.2500)]
    [InlineData(10, 0.2610)]
    [InlineData(20, 0.2915)]
    [InlineData(40, 0.3905)]
    public void A_survey_of_special_order_is_good_to_its_uncertainty(double depth, double expected) => ExpectedHeave.SpecialOrderMetres(depth).ShouldBe(expected, 5e-5);

    private static SeabedSurvey Survey(Func<SiteCoordinate, double> level)
        => new("s", new LocalDate(2026, 2, 20), [.. Enumerable.Range(0, 40 * 20).Select(place => new SiteCoordinate((place % 40) + 0.5, (place / 40) + 0.5)).Select(at => new Sounding(at, level(at)))]);
}
