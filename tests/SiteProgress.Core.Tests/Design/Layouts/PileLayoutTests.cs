using NetTopologySuite.Geometries;
using Shouldly;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Design.Layouts;
using SiteProgress.Core.Piles;
using Xunit;

namespace SiteProgress.Core.Tests.Design.Layouts;

public sealed class PileLayoutTests
{
    [Fact]
    public void A_rectangle_holds_its_rows_and_the_piles_on_its_edges()
    {
        PileLayout layout = Lay(Laying.Rectangle(4.2, 2.1));

        layout.Piles.Select(pile => (pile.Number, pile.Row, pile.Position.XMetres, pile.Position.YMetres)).ShouldBe(
            [("A-0001", 1, 0, 0), ("A-0002", 1, 2.1, 0), ("A-0003", 1, 4.2, 0), ("A-0004", 2, 0, 2.1), ("A-0005", 2, 2.1, 2.1), ("A-0006", 2, 4.2, 2.1)]);
    }

    [Fact]
    public void What_it_amounts_to_is_counted_by_cell_and_by_area()
    {
        // 20 m piles of 2.0 m: 3.1416 m3 a metre and 62.8319 m3 a pile, worked out from the cylinder's volume (π/4 D² L).
        LayoutFigures figures = Lay(Laying.Rectangle(21, 21) with { EdgeMetres = 1.0, Origin = new(1.05, 1.05), TopLevelMetres = -10, TipLevelMetres = -30, VolumeChangeFactor = 0.8 }).Figures;

        (figures.Piles, figures.Rows).ShouldBe((100, 10));
        figures.AreaSquareMetres.ShouldBe(441, 1e-9);
        figures.RatioByCell.ShouldBe(0.7124, 0.00005);
        figures.RatioByArea.ShouldBe(0.7124, 0.00005); // 100 cells fill the area exactly.
        figures.CellDiameterMetres.ShouldBe(2.3696, 0.00005);
        figures.ClearMetres.ShouldBe(0.10, 1e-9);
        figures.SandPerMetreInPile.ShouldBe(3.1416, 0.00005);
        figures.SandInPile!.Value.ShouldBe(62.8319, 0.00005);
        figures.SandInCasing!.Value.ShouldBe(62.8319 / 0.8, 0.0001);
        figures.TotalMetres.ShouldBe(2000);
        figures.TotalInPile!.Value.ShouldBe(6283.19, 0.005);
        figures.TotalInCasing!.Value.ShouldBe(6283.19 / 0.8, 0.01);
    }

    [Fact]
    public void Without_tip_level_the_least_length_counts_and_is_said_to_be_one_and_without_both_no_sand_is_told()
    {
        LayoutInputs inputs = Laying.Rectangle(10, 10) with { TipLevelMetres = null };

        LayoutFigures least = Lay(inputs).Figures;
        LayoutFigures none = Lay(inputs with { LeastLengthMetres = null }).Figures;

        (least.LengthMetres, least.IsLeastLength).ShouldBe((15, true));
        (none.LengthMetres, none.TotalMetres, none.SandInPile, none.TotalInCasing).ShouldBe((null, null, null, null));
        Lay(inputs with { VolumeChangeFactor = null }).Figures.SandInCasing.ShouldBeNull();
    }

    /// <summary>Pick's theorem (G. Pick, 1899): a polygon with corners on the integer grid has A = I + B/2 − 1, B by greatest common divisors along its sides.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(90)]
    [InlineData(180)]
    [InlineData(270)]
    [InlineData(33.3)]
    public void The_piles_on_and_inside_a_polygon_of_whole_metres_are_as_many_as_Pick_says(double turn)
    {
        Random chance = new(1899);
        int counted = 0;
        for (int trial = 0; trial < 60; trial++)
        {
            SiteCoordinate[] ring = WholeMetres(chance);
            if (SitePolygon.Of([ring]).Polygon is not { } polygon) continue; // Rounded corners may touch other sides.
            long onBoundary = ring.Select((corner, index) => Divisor(corner, ring[(index + 1) % ring.Length])).Sum();
            double expected = polygon.AreaSquareMetres + (onBoundary / 2.0) + 1;
            LayoutInputs inputs = Laying.Inputs() with { Rings = [ring], SpacingMetres = 1, DiameterMetres = 1, Origin = new(3, -2) };

            Lay(Laying.Turned(inputs, turn, 452_178, 3_890_605)).Piles.Count.ShouldBe((int)expected, $"trial {trial}");
            counted++;
        }

        counted.ShouldBeGreaterThan(30);
    }

    /// <summary>NetTopologySuite, an independent geometry library, decides every place of the pattern that is not within two millimetres of the limit.</summary>
    [Theory]
    [InlineData(Pattern.Square, 0)]
    [InlineData(Pattern.Rectangular, 0.75)]
    [InlineData(Pattern.Triangular, 1.0)]
    [InlineData(Pattern.Triangular, 3.5)]
    public void A_concave_outline_with_a_part_left_out_holds_the_places_that_another_library_finds(Pattern pattern, double edge)
    {
        Random chance = new(4242);
        for (int trial = 0; trial < 12; trial++)
        {
            SiteCoordinate[][] rings = [Laying.Star(chance, 23, 25, 60, 1000, 2000), Laying.Star(chance, 9, 5, 20, 1000, 2000)];
            LayoutInputs inputs = Laying.Inputs() with
            {
                Rings = rings, Pattern = pattern, SpacingMetres = 2.1, SecondSpacingMetres = pattern == Pattern.Rectangular ? 2.6 : null,
                Origin = new(990 + (20 * chance.NextDouble()), 1990 + (20 * chance.NextDouble())), RotationDegrees = 360 * chance.NextDouble(), EdgeMetres = edge,
            };
            Polygon area = new(Closed(rings[0]), [Closed(rings[1])]);
            HashSet<(long, long)> found = [.. Lay(inputs).Piles.Select(pile => Key(pile.Position))];
            int decided = 0;
            foreach (SiteCoordinate at in AllPlaces(inputs))
            {
                Point point = new(at.XMetres, at.YMetres);
                double depth = area.Boundary.Distance(point) * (area.Covers(point) ? 1 : -1);
                if (Math.Abs(depth - edge) < 0.002) continue;
                decided++;
                found.Contains(Key(at)).ShouldBe(depth > edge, $"trial {trial}, {at}, {depth:0.000} m inside");
            }

            decided.ShouldBeGreaterThan(2000);
            Lay(inputs).Figures.AreaSquareMetres.ShouldBe(area.Area, 1e-6);
        }
    }

    [Fact]
    public void A_centre_within_a_millimetre_of_the_limit_stands_and_one_beyond_does_not()
    {
        foreach (double edge in new[] { 0.0, 1.0 })
        {
            LayoutInputs inputs = Laying.Rectangle(30, 30) with { Origin = new(edge, edge), EdgeMetres = edge };
            int whole = Lay(inputs).Piles.Count;

            Lay(inputs with { Origin = new(edge - 0.0009, edge) }).Piles.Count.ShouldBe(whole);
            Lay(inputs with { Origin = new(edge - 0.0011, edge) }).Piles.Count.ShouldBeLessThan(whole);
        }
    }

    [Fact]
    public void Turning_and_shifting_area_and_pattern_together_turns_and_shifts_the_piles()
    {
        Random chance = new(77);
        LayoutInputs inputs = Laying.Inputs() with { Rings = [Laying.Star(chance, 15, 20, 50, 0, 0)], Pattern = Pattern.Triangular, EdgeMetres = 1, Origin = new(0.4, 0.7) };
        IReadOnlyList<LaidPile> plain = Lay(inputs).Piles;
        foreach (double turn in new[] { 12.34, 90, 180, -77.7 })
        {
            IReadOnlyList<LaidPile> turned = Lay(Laying.Turned(inputs, turn, 392_796, 6_162_897)).Piles;

            turned.Select(pile => pile.Number).ShouldBe(plain.Select(pile => pile.Number));
            plain.Zip(turned).Max(two => Laying.Turned(two.First.Position, turn, 392_796, 6_162_897).DistanceToMetres(two.Second.Position)).ShouldBeLessThan(1e-6);
        }
    }

    [Theory]
    [InlineData(Pattern.Square, null)]
    [InlineData(Pattern.Rectangular, 2.6)]
    [InlineData(Pattern.Triangular, null)]
    public void Piles_over_area_tend_to_one_over_the_cell_as_the_area_grows(Pattern pattern, double? second)
    {
        double was = double.PositiveInfinity;
        foreach (double side in new[] { 40.0, 160, 640 })
        {
            PileLayout layout = Lay(Laying.Rectangle(side, side) with { Pattern = pattern, SecondSpacingMetres = second, RotationDegrees = 21.7, Origin = new(side / 2, side / 2) });
            double off = Math.Abs(layout.Piles.Count * layout.Figures.CellSquareMetres / layout.Figures.AreaSquareMetres - 1);

            // The count is off by no more than the places along the boundary: a strip half a cell's diagonal wide on either side (Gauss's circle problem, the plain bound).
            off.ShouldBeLessThan(4 * side * double.Hypot(2.1, second ?? 2.1) / (side * side));
            off.ShouldBeLessThan(Math.Max(was, 0.001));
            layout.Figures.RatioByArea.ShouldBe(layout.Figures.RatioByCell, layout.Figures.RatioByCell * off * 1.001 + 1e-12);
            was = off;
        }
    }

    [Fact]
    public void Neighbours_of_a_triangular_pattern_are_all_one_spacing_apart()
    {
        SiteCoordinate[] piles = [.. Lay(Laying.Rectangle(30, 30) with { Pattern = Pattern.Triangular, RotationDegrees = 17 }).Piles.Select(pile => pile.Position)];

        foreach (SiteCoordinate inner in piles.Where(at => at.XMetres is > 5 and < 25 && at.YMetres is > 5 and < 25))
            piles.Count(other => Math.Abs(inner.DistanceToMetres(other) - 2.1) < 1e-9).ShouldBe(6);
    }

    [Fact]
    public void A_spacing_follows_from_a_replacement_ratio()
    {
        Lay(Laying.Rectangle(30, 30) with { SpacingMetres = null, ReplacementRatio = 0.70 }).Figures.SpacingMetres.ShouldBe(2.1185, 0.000051);
        Lay(Laying.Rectangle(30, 30) with { Pattern = Pattern.Rectangular, SecondSpacingMetres = null, ReplacementRatio = 0.70 }).Figures.SecondSpacingMetres!.Value.ShouldBe(2.1371, 0.000051);
        Lay(Laying.Rectangle(30, 30) with { SpacingMetres = null, ReplacementRatio = Math.PI / 4 }).Figures.ClearMetres.ShouldBe(0, 1e-9);
    }

    [Fact]
    public void Two_hundred_thousand_piles_are_laid_out_and_more_are_refused_with_their_count()
    {
        LayoutInputs inputs = Laying.Rectangle(499, 399) with { SpacingMetres = 1, DiameterMetres = 1 };

        Lay(inputs).Piles.Count.ShouldBe(200_000);
        LayoutProblem problem = PileLayout.Of(Laying.Rectangle(499, 400) with { SpacingMetres = 1, DiameterMetres = 1 }).Problems.ShouldHaveSingleItem();
        (problem.Found, problem.Expected).ShouldBe(("about 199600 piles", "at most 200000 piles in one layout: a smaller outline or a wider spacing"));
    }

    private static PileLayout Lay(LayoutInputs inputs)
    {
        LayoutResult result = PileLayout.Of(inputs);
        return result.Layout ?? throw new InvalidOperationException(string.Join("; ", result.Problems));
    }

    private static SiteCoordinate[] WholeMetres(Random chance)
        => [.. Laying.Star(chance, 5 + chance.Next(9), 4, 25, 0, 0).Select(at => new SiteCoordinate(Math.Round(at.XMetres), Math.Round(at.YMetres))).Distinct()];

    private static long Divisor(SiteCoordinate from, SiteCoordinate to)
    {
        (long one, long other) = (Math.Abs((long)(to.XMetres - from.XMetres)), Math.Abs((long)(to.YMetres - from.YMetres)));
        while (other != 0) (one, other) = (other, one % other);
        return one;
    }

    /// <summary>Every place of the pattern around the area, by its definition.</summary>
    private static IEnumerable<SiteCoordinate> AllPlaces(LayoutInputs inputs)
    {
        (double sine, double cosine) = Math.SinCos(inputs.RotationDegrees * Math.PI / 180);
        double rows = inputs.Pattern switch { Pattern.Triangular => 2.1 * Math.Sqrt(0.75), Pattern.Rectangular => 2.6, _ => 2.1 };
        for (int row = -50; row <= 50; row++)
        {
            for (int column = -50; column <= 50; column++)
            {
                double along = (2.1 * column) + (inputs.Pattern == Pattern.Triangular && row % 2 != 0 ? 1.05 : 0);
                yield return new(inputs.Origin.XMetres + (along * cosine) - (row * rows * sine), inputs.Origin.YMetres + (along * sine) + (row * rows * cosine));
            }
        }
    }

    private static (long, long) Key(SiteCoordinate at) => ((long)Math.Round(at.XMetres * 1000), (long)Math.Round(at.YMetres * 1000));

    private static LinearRing Closed(SiteCoordinate[] ring) => new([.. ring.Append(ring[0]).Select(at => new Coordinate(at.XMetres, at.YMetres))]);
}
