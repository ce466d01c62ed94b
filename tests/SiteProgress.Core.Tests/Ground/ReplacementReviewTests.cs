using Shouldly;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Ground;
using Xunit;

namespace SiteProgress.Core.Tests.Ground;

/// <summary>As-built replacement ratio by the ground that belongs to each pile.</summary>
public sealed class ReplacementReviewTests
{
    // Ratios of D 2.0 m at 2.1 m: FHWA/RD-83/026's unit-cell formulas (from memory), 0.7854 (D/s)² square.
    [Fact]
    public void A_pattern_built_as_designed_has_the_ratio_of_its_unit_cell()
    {
        ReplacementReview review = ReplacementReview.Of(Square(_ => new(0, 0)), [Design(0.7124)], 0.95);

        review.Zones.ShouldHaveSingleItem().Mean!.Value.ShouldBe(0.7124, 5e-5);
        review.Piles.ShouldAllBe(pile => Math.Abs(pile.Ratio!.Value - 0.7124) < 5e-5 && !pile.IsWeak);
        review.Spots.ShouldBeEmpty();
    }

    [Fact]
    public void A_pile_aside_is_no_weak_spot_and_a_pile_without_sand_is_one()
    {
        ReplacementReview aside = ReplacementReview.Of(Square(number => number == 44 ? new(0.14, 0) : new(0, 0)), [Design(0.7124)], 0.95);
        aside.Piles.Single(pile => pile.Pile.Number == "43").Ratio!.Value.ShouldBeLessThan(0.95 * 0.7124 * 1.03);
        aside.Spots.ShouldBeEmpty();

        GroundPile[] thin = [.. Square(_ => new(0, 0)).Select(pile => pile.Number == "44" ? pile with { SectionSquareMetres = 0.4 * Math.PI } : pile)];
        ReplacementReview review = ReplacementReview.Of(thin, [Design(0.7124)], 0.95);
        WeakSpot spot = review.Spots.ShouldHaveSingleItem();
        spot.Piles.Select(pile => pile.Pile.Number).ShouldContain("44");
        // Of five sections in the plus around it one has 0.4 of the sand: (4 + 0.4) / 5 = 0.88 of the design.
        spot.Piles.Single(pile => pile.Pile.Number == "44").RatioAround!.Value.ShouldBe(0.88 * Math.PI / 4.41, 1e-6);
        review.Zones[0].Weak.ShouldBe(spot.Piles.Count);
    }

    [Fact]
    public void What_is_not_built_bounds_the_ground_and_gives_no_sand()
    {
        GroundPile[] piles = [.. Square(_ => new(0, 0)).Select(pile => int.Parse(pile.Number, System.Globalization.CultureInfo.InvariantCulture) % 10 < 5 ? pile : pile with { Stands = false, PositionIsJudged = false, SectionSquareMetres = null })];

        ReplacementReview review = ReplacementReview.Of(piles, [Design(0.7124)], 0.95);

        review.Zones[0].ShouldSatisfyAllConditions(zone => zone.Standing.ShouldBe(50), zone => zone.Known.ShouldBe(50), zone => zone.Mean!.Value.ShouldBe(0.7124, 5e-5));
        review.Piles.Single(pile => pile.Pile.Number == "44").OpenNeighbours.ShouldBe(1);
    }

    [Fact]
    public void Without_sand_an_outline_or_piles_nothing_is_said()
    {
        GroundPile[] piles = [.. Square(_ => new(0, 0)).Select(pile => pile with { SectionSquareMetres = null })];
        ReplacementReview.Of(piles, [Design(0.7)], 0.95).Zones[0].ShouldSatisfyAllConditions(zone => zone.Standing.ShouldBe(100), zone => zone.Known.ShouldBe(0), zone => zone.Mean.ShouldBeNull());
        ReplacementReview.Of(Square(_ => new(0, 0)), [Design(0.7) with { Outline = [] }], 0.95).Piles.ShouldBeEmpty();
        ReplacementReview.Of([], [Design(0.7)], 0.95).Zones[0].Mean.ShouldBeNull();
        ReplacementReview.Of([new GroundPile("1", "A", new(double.NaN, 0), true, true, 3)], [Design(0.7)], 0.95).Piles.ShouldBeEmpty();
    }

    [Fact]
    public void Exactly_the_share_is_not_weak()
        => ReplacementReview.Of(Square(_ => new(0, 0)), [Design(Math.PI / 4.41 / 0.95)], 0.95).Spots.ShouldBeEmpty();

    private static GroundDesign Design(double ratio) => new("A", [new(-1.05, -1.05), new(19.95, -1.05), new(19.95, 19.95), new(-1.05, 19.95)], ratio, 2.1);

    private static IEnumerable<GroundPile> Place(Func<int, SiteCoordinate> aside) => Enumerable.Range(0, 100).Select(number =>
        new GroundPile(number.ToString(System.Globalization.CultureInfo.InvariantCulture), "A", new((number % 10 * 2.1) + aside(number).XMetres, (number / 10 * 2.1) + aside(number).YMetres), true, true, Math.PI));

    private static GroundPile[] Square(Func<int, SiteCoordinate> aside) => [.. Place(aside)];
}
