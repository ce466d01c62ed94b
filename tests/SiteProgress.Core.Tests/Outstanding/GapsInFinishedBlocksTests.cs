using Shouldly;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Outstanding;
using SiteProgress.Core.Piles;
using Xunit;

namespace SiteProgress.Core.Tests.Outstanding;

public sealed class GapsInFinishedBlocksTests
{
    private static readonly Zone Square = Invented.ZoneA;
    private static readonly Zone Rectangle = Invented.ZoneA with { Code = "B", Pattern = Pattern.Rectangular, SecondSpacingMetres = 2.6 };
    private static readonly Zone LongRectangle = Invented.ZoneA with { Code = "L", Pattern = Pattern.Rectangular, SecondSpacingMetres = 4.0 };
    private static readonly Zone Triangle = Invented.ZoneA with { Code = "C", Pattern = Pattern.Triangular };

    public static TheoryData<string, int> Patterns => new() { { "A", 8 }, { "B", 8 }, { "L", 10 }, { "C", 6 } };

    [Theory]
    [MemberData(nameof(Patterns))]
    public void A_pile_left_out_inside_a_finished_block_is_found(string zone, int neighbours)
        => Find(zone, (column, row) => (column, row) != (3, 3)).ShouldBe([new Gap("3-3", neighbours, neighbours)]);

    [Theory]
    [MemberData(nameof(Patterns))]
    public void Two_left_out_side_by_side_are_both_found(string zone, int neighbours)
        => Find(zone, (column, row) => row != 3 || column is not (3 or 4))
            .ShouldBe([new Gap("3-3", neighbours, neighbours - 1), new Gap("4-3", neighbours, neighbours - 1)]);

    [Theory]
    [MemberData(nameof(Patterns))]
    public void The_row_in_progress_is_no_gap(string zone, int neighbours)
    {
        neighbours.ShouldBePositive();
        for (int done = 0; done <= 7; done++)
        {
            Find(zone, (column, row) => row < 3 || (row == 3 && column < done)).ShouldBeEmpty($"{done} piles of the row are built");
        }
    }

    [Theory]
    [MemberData(nameof(Patterns))]
    public void Nothing_is_a_gap_where_nothing_is_built(string zone, int neighbours)
    {
        neighbours.ShouldBePositive();
        Find(zone, (_, _) => false).ShouldBeEmpty();
    }

    [Fact]
    public void A_pile_left_out_at_the_edge_of_a_finished_zone_is_found()
        => Find("A", (column, row) => (column, row) != (3, 0)).ShouldBe([new Gap("3-0", 5, 5)]);

    [Fact]
    public void At_the_edge_no_other_neighbour_may_be_left()
        => Find("A", (column, row) => row != 0 || column is not (3 or 4)).ShouldBeEmpty();

    [Fact]
    public void Of_three_left_out_in_a_row_the_outer_two_are_found()
        => Find("A", (column, row) => row != 3 || column is not (2 or 3 or 4)).Select(gap => gap.Number).ShouldBe(["2-3", "4-3"]);

    [Fact]
    public void A_pile_explained_otherwise_is_no_gap()
    {
        PlaceInPattern[] piles = Block("A", (column, row) => (column, row) != (3, 3))
            .Select(pile => pile with { IsLeft = false }).ToArray();

        GapsInFinishedBlocks.Find(piles, [Square]).ShouldBeEmpty();
    }

    [Fact]
    public void Piles_of_another_zone_are_no_neighbours()
    {
        PlaceInPattern[] piles = Block("A", (column, row) => (column, row) != (3, 3))
            .Select(pile => pile.IsBuilt ? pile with { Zone = "B" } : pile).ToArray();

        GapsInFinishedBlocks.Find(piles, [Square, Rectangle]).ShouldBeEmpty();
    }

    [Fact]
    public void A_pattern_turned_on_the_grid_is_seen_alike()
    {
        (double sin, double cos) = Math.SinCos(0.4);
        PlaceInPattern[] piles = Block("B", (column, row) => (column, row) != (3, 3))
            .Select(pile => pile with
            {
                Position = new SiteCoordinate(
                    (pile.Position.XMetres * cos) - (pile.Position.YMetres * sin), (pile.Position.XMetres * sin) + (pile.Position.YMetres * cos)),
            }).ToArray();

        GapsInFinishedBlocks.Find(piles, [Rectangle]).ShouldBe([new Gap("3-3", 8, 8)]);
    }

    private static IReadOnlyList<Gap> Find(string zone, Func<int, int, bool> built)
        => GapsInFinishedBlocks.Find(Block(zone, built), [Square, Rectangle, LongRectangle, Triangle]);

    /// <summary>Seven columns and seven rows in the pattern of a zone; numbers are column-row.</summary>
    private static PlaceInPattern[] Block(string zone, Func<int, int, bool> built)
        => (from row in Enumerable.Range(0, 7)
            from column in Enumerable.Range(0, 7)
            let isBuilt = built(column, row)
            select new PlaceInPattern($"{column}-{row}", zone, At(zone, column, row), isBuilt, !isBuilt)).ToArray();

    private static SiteCoordinate At(string zone, int column, int row) => zone switch
    {
        "A" => new SiteCoordinate(1000 + (column * 2.1), 2000 + (row * 2.1)),
        "B" => new SiteCoordinate(1000 + (column * 2.1), 2000 + (row * 2.6)),
        "L" => new SiteCoordinate(1000 + (column * 2.1), 2000 + (row * 4.0)),
        _ => new SiteCoordinate(1000 + (column * 2.1) + (row % 2 * 1.05), 2000 + (row * 2.1 * Math.Sqrt(3) / 2)),
    };
}
