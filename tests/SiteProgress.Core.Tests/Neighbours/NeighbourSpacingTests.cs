using Shouldly;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Neighbours;
using Xunit;

namespace SiteProgress.Core.Tests.Neighbours;

/// <summary>Spacing of neighbours, worked out by hand and against every pair of a generated field.</summary>
public sealed class NeighbourSpacingTests
{
    private static readonly Dictionary<string, double> Reach = new() { ["A"] = 2.1 * Math.Sqrt(2) * 1.1 };

    [Fact]
    public void Two_piles_each_within_limit_may_still_leave_a_gap()
    {
        // Designed 2.1 m apart, moved 0.14 m away from each other: 2.38 m, 0.28 m more; faces 0.1 m apart by design, 0.38 m as built.
        SpacingReview review = Review([At("A-1", 0, 0, -0.14, 0), At("A-2", 2.1, 0, 0.14, 0)]);

        NeighbourPair pair = review.Wider.ShouldHaveSingleItem();
        pair.DifferenceMetres.ShouldBe(0.28, 1e-12);
        pair.DesignClearMetres.ShouldBe(0.1, 1e-12);
        pair.ClearMetres.ShouldBe(0.38, 1e-12);
        pair.BothWithinLimit.ShouldBeTrue();
        review.Closer.ShouldBeEmpty();
    }

    [Fact]
    public void Piles_moved_towards_each_other_overlap()
    {
        SpacingReview review = Review([At("A-1", 0, 0, 0.14, 0), At("A-2", 2.1, 0, -0.14, 0)]);

        NeighbourPair pair = review.Closer.ShouldHaveSingleItem();
        pair.ClearMetres.ShouldBe(-0.18, 1e-12);
        review.Wider.ShouldBeEmpty();
    }

    [Fact]
    public void A_spacing_exactly_at_what_is_allowed_is_met()
        => Review([At("A-1", 0, 0, 0, 0), At("A-2", 2.1, 0, 0.15, 0)]).Wider.ShouldBeEmpty();

    [Fact]
    public void Every_pair_within_reach_is_looked_at_once()
    {
        Random random = new(5);
        BuiltNeighbour[] field = Enumerable.Range(0, 400).Select(index => At($"A-{index}", index % 20 * 2.1, index / 20 * 2.1, (random.NextDouble() - 0.5) / 2, (random.NextDouble() - 0.5) / 2)).ToArray();

        SpacingReview review = Review(field);

        // Rows, columns and both diagonals of a field of 20 by 20.
        review.Pairs.ShouldBe((2 * 20 * 19) + (2 * 19 * 19));
        (BuiltNeighbour One, BuiltNeighbour Other)[] all = [.. field.SelectMany((one, place) => field.Skip(place + 1).Select(other => (one, other)))];
        double Apart(SiteCoordinate a, SiteCoordinate b) => Math.Sqrt(Math.Pow(a.XMetres - b.XMetres, 2) + Math.Pow(a.YMetres - b.YMetres, 2));
        int wider = all.Count(pair => Apart(pair.One.Design, pair.Other.Design) <= Reach["A"] && Apart(pair.One.AsBuilt, pair.Other.AsBuilt) - Apart(pair.One.Design, pair.Other.Design) > 0.15);
        wider.ShouldBeGreaterThan(50);
        review.Wider.Count.ShouldBe(wider);
        review.Wider.Select(pair => pair.DifferenceMetres).ShouldBeInOrder(SortDirection.Descending);
    }

    [Fact]
    public void Another_zone_a_zone_without_reach_and_a_position_that_is_none_break_nothing()
    {
        Review([At("A-1", 0, 0, 0, 0), At("B-1", 2.1, 0, 1, 0) with { Zone = "B" }]).Pairs.ShouldBe(0);
        Review([At("A-1", 0, 0, 0, 0), At("A-2", 2.1, 0, double.NaN, 0)]).Pairs.ShouldBe(0);
        Review([]).Difference.ShouldBeNull();
        Review([At("A-1", 0, 0, 0, 0), At("A-2", 2.1, 0, 1e9, 0)]).Wider.ShouldHaveSingleItem();
    }

    private static SpacingReview Review(BuiltNeighbour[] piles) => NeighbourSpacing.Review(piles, Reach, _ => 0.15, _ => 0.15);

    private static BuiltNeighbour At(string number, double x, double y, double offX, double offY)
        => new(number, "A", new SiteCoordinate(x, y), new SiteCoordinate(x + offX, y + offY), 2.0, 2.0, Math.Sqrt((offX * offX) + (offY * offY)) <= 0.15);
}
