using NetTopologySuite.Geometries;
using Shouldly;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Design;
using SiteProgress.Core.Piles;
using Xunit;

namespace SiteProgress.Core.Tests.Design;

public sealed class DoubtfulPilesTests
{
    private static readonly Zone A = Invented.ZoneA with { Code = "A", SpacingMetres = 2.1, SecondSpacingMetres = null, Outline = Box(0, 0, 42, 42) };
    private static readonly Zone B = A with { Code = "B", Outline = Box(42, 0, 84, 42) };

    [Fact]
    public void A_design_in_order_has_none()
    {
        DoubtfulPiles doubtful = DoubtfulPiles.Among([.. Block("A", 1.05), .. Block("B", 43.05)], [A, B]);

        doubtful.Doubts.ShouldBeEmpty();
        doubtful.UnusableOutlines.ShouldBeEmpty();
    }

    [Fact]
    public void A_pile_that_two_zones_plan_at_one_place_is_doubled()
    {
        PileDoubt doubt = Only([Planned("A-1", "A", 41.999, 5), Planned("B-1", "B", 42.004, 5)], DoubtKind.Doubled);

        (doubt.Pile.Number, doubt.Other!.Number).ShouldBe(("A-1", "B-1"));
        doubt.ApartMetres!.Value.ShouldBe(0.005, 1e-9);
    }

    [Theory]
    [InlineData(1.998, true)]
    [InlineData(1.9991, false)]
    [InlineData(2.0, false)]
    [InlineData(0.0101, true)]
    public void Two_piles_closer_than_their_diameter_are_too_close_but_for_a_millimetre(double apart, bool tooClose)
    {
        DoubtfulPiles doubtful = DoubtfulPiles.Among([Planned("A-1", "A", 10, 10), Planned("A-2", "A", 10 + apart, 10)], [A, B]);

        doubtful.Count(DoubtKind.TooClose).ShouldBe(tooClose ? 1 : 0);
        doubtful.Count(DoubtKind.Doubled).ShouldBe(0);
    }

    [Fact]
    public void Where_piles_are_thin_half_the_spacing_tells_what_is_too_close_and_of_two_zones_the_closer_one()
    {
        Zone wide = A with { SpacingMetres = 3, DesignDiameterMetres = 0.7 };
        PlannedPile[] two = [Planned("A-1", "A", 10, 10) with { DiameterMetres = 0.7 }, Planned("A-2", "A", 11.4, 10) with { DiameterMetres = 0.7 }];

        DoubtfulPiles.Among(two, [wide, B]).Doubts.ShouldHaveSingleItem().LeastMetres!.Value.ShouldBe(1.5, 1e-12);
        DoubtfulPiles.Among([two[0], two[1] with { Zone = "B" }], [wide with { Outline = [] }, B with { Outline = [] }]).Doubts.ShouldBeEmpty(); // 1.05 m is enough for B.
    }

    [Fact]
    public void A_pile_in_the_outline_of_another_zone_of_none_or_of_two_is_told_apart()
    {
        Zone overlapping = B with { Outline = Box(40, 0, 84, 42) };

        Only([Planned("A-1", "A", 60, 5)], DoubtKind.InOtherZone).LiesIn.ShouldBe(["B"]);
        Only([Planned("A-1", "A", -3, 5)], DoubtKind.InNoZone).LiesIn.ShouldBe([]);
        Only([Planned("A-1", "A", 41, 5)], DoubtKind.InTwoZones, overlapping).LiesIn.ShouldBe(["A", "B"]);
        // On the line between two zones, to a millimetre, it lies in both.
        Only([Planned("A-1", "A", 42, 5)], DoubtKind.InTwoZones).LiesIn.ShouldBe(["A", "B"]);
    }

    [Fact]
    public void A_zone_without_an_outline_holds_nothing_against_its_piles_and_one_that_crosses_itself_is_told()
    {
        DoubtfulPiles.Among([Planned("A-1", "A", 500, 5)], [A with { Outline = [] }, B]).Doubts.ShouldBeEmpty();

        DoubtfulPiles crossed = DoubtfulPiles.Among([Planned("A-1", "A", 5, 5)], [A with { Outline = [[0, 0], [10, 10], [10, 0], [0, 10]] }, B]);

        crossed.Doubts.ShouldBeEmpty();
        crossed.UnusableOutlines.ShouldBe([("A", "the side from corner 1 to 2 meets the side from corner 3 to 4")]);
    }

    /// <summary>Every pair and every outline looked at, the outlines by NetTopologySuite: the same piles are found.</summary>
    [Fact]
    public void The_same_are_found_as_when_each_is_held_against_each()
    {
        Random chance = new(31);
        Zone[] zones = [A, B with { SpacingMetres = 4.4, Outline = [[40, 0], [84, 3], [60, 20], [84, 42], [40, 40], [40, 0]] }];
        PlannedPile[] piles = [.. Enumerable.Range(0, 700).Select(index => Planned(
            $"P-{index:000}", index % 3 == 0 ? "B" : "A", (90 * chance.NextDouble()) - 3, (50 * chance.NextDouble()) - 3) with { DiameterMetres = 1 + chance.NextDouble() })];
        Polygon[] outlines = [.. zones.Select(zone => new Polygon(new LinearRing([.. zone.Outline.Select(corner => new Coordinate(corner[0], corner[1]))])))];

        DoubtfulPiles found = DoubtfulPiles.Among(piles, zones);

        HashSet<(string, string)> pairs = [];
        for (int one = 0; one < piles.Length; one++)
        {
            for (int other = one + 1; other < piles.Length; other++)
            {
                double half = Math.Min(Half(piles[one]), Half(piles[other]));
                double least = Math.Max((piles[one].DiameterMetres + piles[other].DiameterMetres) / 2, half);
                if (piles[one].Position.DistanceToMetres(piles[other].Position) < least - 0.001) pairs.Add((piles[one].Number, piles[other].Number));
            }
        }

        pairs.Count.ShouldBeGreaterThan(100);
        found.Doubts.Where(doubt => doubt.Other is not null).Select(doubt => (doubt.Pile.Number, doubt.Other!.Number)).ShouldBe(pairs, ignoreOrder: true);
        string[] misplaced = [.. piles.Where(pile =>
        {
            bool[] inside = [.. outlines.Select(outline => outline.Distance(new Point(pile.Position.XMetres, pile.Position.YMetres)) <= 0.001)];
            return inside.Count(one => one) != 1 || !inside[pile.Zone == "A" ? 0 : 1];
        }).Select(pile => pile.Number)];
        misplaced.Length.ShouldBeGreaterThan(100);
        found.Doubts.Where(doubt => doubt.Other is null).Select(doubt => doubt.Pile.Number).ShouldBe(misplaced, ignoreOrder: true);

        static double Half(PlannedPile pile) => pile.Zone == "A" ? 1.05 : 2.2;
    }

    private static PileDoubt Only(PlannedPile[] piles, DoubtKind kind, Zone? second = null)
    {
        // A pair on the line between the zones lies in both outlines; what is asked here is the one kind.
        PileDoubt doubt = DoubtfulPiles.Among(piles, [A, second ?? B]).Doubts.First(one => one.Kind == kind);
        doubt.LeastMetres.HasValue.ShouldBe(doubt.Other is not null);
        return doubt;
    }

    private static IEnumerable<PlannedPile> Block(string zone, double left)
        => from row in Enumerable.Range(0, 19)
           from column in Enumerable.Range(0, 19)
           select Planned($"{zone}-{row:00}-{column:00}", zone, left + (2.1 * column), 1.05 + (2.1 * row));

    private static PlannedPile Planned(string number, string zone, double x, double y) => Invented.Planned(number, x, y) with { Zone = zone, DiameterMetres = 2.0 };

    private static double[][] Box(double left, double low, double right, double high) => [[left, low], [right, low], [right, high], [left, high], [left, low]];
}
