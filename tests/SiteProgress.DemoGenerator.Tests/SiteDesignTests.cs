using Shouldly;
using SiteProgress.DemoGenerator.Site;
using Xunit;

namespace SiteProgress.DemoGenerator.Tests;

public class SiteDesignTests
{
    // pi/4 (D/s)^2 square, pi D^2 / (4 s1 s2) rectangular, pi/(2 sqrt 3) (D/s)^2 triangular: the geometry of the unit cell, as
    // handbooks of ground improvement print it. The square value 0.7124 for D 2.0 m at 2.1 m is tabulated; the others by hand.
    [Theory]
    [InlineData("A", 0.7124)]
    [InlineData("B", 0.4661)]
    [InlineData("C", 0.5265)]
    public void The_replacement_ratio_of_a_zone_agrees_with_its_pattern(string code, double expected)
    {
        var zone = SeedData.Json("site.json").GetProperty("zones").EnumerateArray().Single(each => each.GetProperty("code").GetString() == code);
        zone.GetProperty("replacementRatio").GetDouble().ShouldBe(expected, 0.00006);
        var diameter = zone.GetProperty("designDiameterMetres").GetDouble();
        zone.GetProperty("sandPerMetreInPile").GetDouble().ShouldBe(Math.PI * diameter * diameter / 4, 0.00006);
    }

    [Fact]
    public void The_piles_fill_their_outline_as_densely_as_the_replacement_ratio_says()
    {
        foreach (var zone in SeedData.Json("site.json").GetProperty("zones").EnumerateArray())
        {
            var code = zone.GetProperty("code").GetString()!;
            var corners = zone.GetProperty("outline").EnumerateArray().Select(pair => (X: pair[0].GetDouble(), Y: pair[1].GetDouble())).ToList();
            var area = Math.Abs(corners.Zip(corners.Skip(1), (a, b) => (a.X * b.Y) - (b.X * a.Y)).Sum()) / 2;
            var piles = SeedData.Planned.Where(pile => pile.Key.StartsWith(code, StringComparison.Ordinal)).ToList();
            var diameter = zone.GetProperty("designDiameterMetres").GetDouble();
            var ratio = piles.Count * Math.PI * diameter * diameter / 4 / area;
            // The staggered rows of the triangular zone leave half a pile's room at one end of each row.
            ratio.ShouldBe(zone.GetProperty("replacementRatio").GetDouble(), code == "C" ? 0.006 : 0.0005);
            foreach (var (number, (x, y)) in piles) Inside(corners, x, y).ShouldBeTrue(number);
        }
    }

    [Fact]
    public void Neighbours_stand_one_spacing_apart_and_none_nearer()
    {
        foreach (var zone in new[] { "A", "B", "C" })
        {
            var piles = SeedData.Planned.Where(pile => pile.Key.StartsWith(zone, StringComparison.Ordinal)).Select(pile => pile.Value).ToList();
            var nearest = piles.Select(one => piles.Where(other => other != one)
                .Min(other => Math.Sqrt(((other.X - one.X) * (other.X - one.X)) + ((other.Y - one.Y) * (other.Y - one.Y)))));
            nearest.ShouldAllBe(distance => Math.Abs(distance - 2.1) < 0.002);
        }
    }

    [Fact]
    public void The_scale_of_the_site_grid_is_the_projections_own()
    {
        // PROJ 9.1: echo "7.3 55.6" | proj -V +proj=utm +zone=32 +ellps=GRS80 -> meridian scale 0.99974073, 392887.94 6162873.42
        SiteGrid.Scale.ShouldBe(0.99974073, 5e-9);
        var middle = SiteGrid.ToProjected(new PlanePoint(1250, 2030));
        (middle - new PlanePoint(392887.94, 6162873.42)).Length.ShouldBeLessThan(5);
    }

    [Fact]
    public void Five_marks_fit_within_a_centimetre_and_the_poor_one_by_two_to_three()
    {
        foreach (var mark in SeedData.Rows("control-points.csv"))
        {
            var (x, y) = SeedData.FromProjected(SeedData.Number(mark["easting"]), SeedData.Number(mark["northing"]));
            var (dx, dy) = (x - SeedData.Number(mark["x"]), y - SeedData.Number(mark["y"]));
            var off = Math.Sqrt((dx * dx) + (dy * dy));
            if (mark["name"] == "CP-5") off.ShouldBeInRange(0.015, 0.035);
            else off.ShouldBeLessThan(0.010);
        }
    }

    [Fact]
    public void Casings_stand_a_whole_number_of_piles_apart()
    {
        foreach (var barge in SeedData.Json("site.json").GetProperty("barges").EnumerateArray())
        {
            var starboard = barge.GetProperty("casings").EnumerateArray().Select(casing => casing.GetProperty("starboardMetres").GetDouble()).ToList();
            starboard.Count.ShouldBe(3);
            starboard[1].ShouldBe(0);
            (Math.Abs(starboard[2] / 2.1 - Math.Round(starboard[2] / 2.1)) < 1e-9).ShouldBeTrue();
            starboard[0].ShouldBe(-starboard[2]);
        }
    }

    [Fact]
    public void The_drawing_says_that_its_coordinates_are_site_metres()
    {
        var drawing = SeedData.Json("site-drawing.geojson");
        drawing.GetProperty("properties").GetProperty("frame").GetString().ShouldBe("site grid");
        drawing.GetProperty("features").GetArrayLength().ShouldBeGreaterThanOrEqualTo(6);
    }

    private static bool Inside(List<(double X, double Y)> ring, double x, double y)
    {
        var inside = false;
        for (var i = 0; i < ring.Count - 1; i++)
        {
            var (a, b) = (ring[i], ring[i + 1]);
            if ((a.Y > y) != (b.Y > y) && x < a.X + ((y - a.Y) / (b.Y - a.Y) * (b.X - a.X))) inside = !inside;
        }

        return inside;
    }
}
