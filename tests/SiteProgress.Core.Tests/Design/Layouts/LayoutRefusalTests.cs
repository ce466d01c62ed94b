using Shouldly;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Design.Layouts;
using SiteProgress.Core.Piles;
using Xunit;

namespace SiteProgress.Core.Tests.Design.Layouts;

public sealed class LayoutRefusalTests
{
    private static readonly LayoutInputs Good = Laying.Rectangle(30, 20);

    [Fact]
    public void A_ratio_above_touching_circles_is_refused_with_the_bound()
    {
        Only(Good with { SpacingMetres = null, ReplacementRatio = 0.79 }).ShouldBe(("Replacement ratio", "0.7900", "at most 0.7854, at which the circles of a square pattern touch: piles cannot fill more of the ground without overlapping"));
        Only(Good with { Pattern = Pattern.Triangular, SpacingMetres = null, ReplacementRatio = 0.91 }).Expected.ShouldStartWith("at most 0.9069");
        // The second spacing of 1.9179 m stands in the table of spacings for piles of 2.0 m; it is below the diameter.
        Only(Good with { Pattern = Pattern.Rectangular, ReplacementRatio = 0.78 }).Expected.ShouldContain("the second spacing would be 1.918 m, and piles of 2.000 m would overlap by 0.082 m");
    }

    [Fact]
    public void A_spacing_below_the_diameter_is_refused_with_the_overlap()
        => Only(Good with { SpacingMetres = 1.95 }).ShouldBe(("Spacing", "1.950 m", "at least the diameter, 2.000 m: neighbours would overlap by 0.050 m; squares touch at a replacement ratio of 0.7854"));

    [Fact]
    public void A_spacing_of_just_the_diameter_is_taken()
        => PileLayout.Of(Good with { SpacingMetres = 2.0 }).Layout!.Figures.ClearMetres.ShouldBe(0);

    [Fact]
    public void An_outline_that_crosses_itself_is_refused_with_its_sides()
        => Only(With((0, 0), (30, 20), (30, 0), (0, 20))).ShouldBe(
            ("Outline", "the side from corner 1 to 2 meets the side from corner 3 to 4", "sides that neither cross nor touch; are the corners in order?"));

    [Theory]
    [InlineData("a corner on another side", "0,0 20,0 20,10 10,0 0,10")]
    [InlineData("a side that runs back", "0,0 20,0 10,0 10,10")]
    [InlineData("a corner met twice", "0,0 10,10 20,0 20,20 10,10 0,20")]
    public void An_outline_that_touches_itself_is_refused(string what, string corners)
        => Only(With([.. corners.Split(' ').Select(Corner)])).Found.ShouldContain(" meets the side from corner ", customMessage: what);

    [Fact]
    public void Too_few_corners_and_corners_in_one_line_are_refused()
    {
        Only(With((0, 0), (30, 0))).ShouldBe(("Outline", "2 corners", "at least three corners"));
        Only(With((0, 0), (30, 0), (30, 0), (0, 0))).Found.ShouldBe("2 different corners");
        Only(Good with { Rings = [] }).Found.ShouldBe("no corners");
        Only(Good with { Rings = [[]] }).Found.ShouldBe("no corners");
        Only(With((0, 0), (10, 10), (20, 20.0001))).Found.ShouldBe("corners in one line");
    }

    [Fact]
    public void A_part_left_out_must_lie_inside_and_apart()
    {
        Only(Good with { Rings = [Good.Rings[0], Laying.Ring((40, 1), (45, 1), (45, 5))] }).ShouldBe(("Part 1 left out", "it lies outside the outline", "a part inside the outline"));
        Only(Good with { Rings = [Good.Rings[0], Laying.Ring((25, 1), (45, 1), (45, 5))] }).Found.ShouldContain("of part 1 left out");
        Only(Good with { Rings = [Good.Rings[0], Laying.Ring((5, 5), (25, 5), (25, 15), (5, 15)), Laying.Ring((10, 8), (12, 8), (12, 10))] }).Found.ShouldBe("it lies inside part 1 left out");
    }

    [Fact]
    public void Numbers_that_are_none_or_out_of_reach_are_refused_each_by_name()
    {
        Only(With((0, 0), (double.NaN, 0), (3, 3))).ShouldBe(("Outline", "corner 2: NaN, 0", "two numbers of metres on the site grid"));
        Only(With((0, 0), (30_000_0, 0), (30_000_0, 20_000_0))).Expected.ShouldContain("are they millimetres");
        Only(Good with { RotationDegrees = double.NaN }).Where.ShouldBe("Rotation");
        Only(Good with { EdgeMetres = -0.1 }).Where.ShouldBe("Edge distance");
        Only(Good with { Origin = new(double.PositiveInfinity, 0) }).Where.ShouldBe("Origin");
        Only(Good with { DiameterMetres = double.NaN }).Where.ShouldBe("Diameter");
        Only(Good with { SpacingMetres = 2100 }).Where.ShouldBe("Spacing");
        Only(Good with { SpacingMetres = null }).ShouldBe(("Spacing", "nothing", "metres; or a replacement ratio from which it follows"));
        Only(Good with { ReplacementRatio = 0.5 }).Found.ShouldBe("it and every spacing");
        Only(Good with { TipLevelMetres = 28 }).ShouldBe(("Tip level", "28.000 m", "a level below the top level −12.500 m; is it a depth?"));
        Only(Good with { VolumeChangeFactor = 0 }).Where.ShouldBe("C");
        PileLayout.Of(Good with { RotationDegrees = double.NaN, EdgeMetres = double.NaN, DiameterMetres = -1 }).Problems.Count.ShouldBe(3);
    }

    [Fact]
    public void An_outline_without_room_for_a_pile_is_refused()
        => Only(Good with { EdgeMetres = 12 }).Found.ShouldBe("no place for a pile");

    [Fact]
    public void A_thin_outline_of_great_length_does_not_take_long_to_refuse()
        => Only(With((0, 0), (40_000, 0), (40_000, 40_000), (39_999.99, 40_000)) with { SpacingMetres = 0.1, DiameterMetres = 0.1 }).Found.ShouldStartWith("about ");

    private static LayoutInputs With(params (double X, double Y)[] corners) => Good with { Rings = [Laying.Ring(corners)] };

    private static (double, double) Corner(string text)
        => (double.Parse(text.Split(',')[0], System.Globalization.CultureInfo.InvariantCulture), double.Parse(text.Split(',')[1], System.Globalization.CultureInfo.InvariantCulture));

    private static (string Where, string Found, string Expected) Only(LayoutInputs inputs)
    {
        LayoutResult result = PileLayout.Of(inputs);
        result.Layout.ShouldBeNull();
        LayoutProblem problem = result.Problems.ShouldHaveSingleItem();
        return (problem.Where, problem.Found, problem.Expected);
    }
}
