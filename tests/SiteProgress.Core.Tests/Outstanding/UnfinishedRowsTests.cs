using Shouldly;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Outstanding;
using SiteProgress.Core.Piles;
using Xunit;

namespace SiteProgress.Core.Tests.Outstanding;

/// <summary>Rows left unfinished, on blocks of seven by seven whose left-out piles are known by how they are made.</summary>
public sealed class UnfinishedRowsTests
{
    private static readonly Zone[] Zones =
    [
        Invented.ZoneA,
        Invented.ZoneA with { Code = "B", Pattern = Pattern.Rectangular, SecondSpacingMetres = 2.6 },
        Invented.ZoneA with { Code = "L", Pattern = Pattern.Rectangular, SecondSpacingMetres = 4.0 },
        Invented.ZoneA with { Code = "C", Pattern = Pattern.Triangular },
    ];

    [Theory]
    [InlineData("A")]
    [InlineData("B")]
    [InlineData("L")]
    [InlineData("C")]
    public void A_row_broken_off_and_passed_on_both_sides_is_found_whole(string zone)
        => Find(zone, (column, row) => row != 3 || column < 2).ShouldBe(["2-3", "3-3", "4-3", "5-3", "6-3"], ignoreOrder: true);

    [Theory]
    [InlineData("A")]
    [InlineData("B")]
    [InlineData("L")]
    public void A_column_is_a_row_as_well(string zone)
        => Find(zone, (column, row) => column != 3 || row is not (2 or 3 or 4)).ShouldBe(["3-2", "3-3", "3-4"], ignoreOrder: true);

    [Theory]
    [InlineData("A")]
    [InlineData("B")]
    [InlineData("L")]
    [InlineData("C")]
    public void The_row_in_progress_is_none(string zone)
    {
        for (int done = 0; done <= 7; done++)
        {
            Find(zone, (column, row) => row < 3 || (row == 3 && column < done)).ShouldBeEmpty($"{done} piles of the row are built");
        }
    }

    [Theory]
    [InlineData("A")]
    [InlineData("C")]
    public void Two_left_out_are_gaps_and_no_row(string zone)
        => Find(zone, (column, row) => row != 3 || column is not (3 or 4)).ShouldBeEmpty();

    [Fact]
    public void Two_rows_left_side_by_side_are_work_to_come_and_no_unfinished_row()
        => Find("A", (_, row) => row is not (3 or 4)).ShouldBeEmpty();

    [Fact]
    public void At_the_edge_of_a_zone_nothing_lies_beyond_and_no_row_is_claimed()
        => Find("A", (_, row) => row != 0).ShouldBeEmpty();

    [Fact]
    public void A_pile_whose_record_waits_ends_the_stretch()
    {
        PlaceInPattern[] piles = Block("A", (_, row) => row != 3).Select(pile => pile.Number == "3-3" ? pile with { IsLeft = false } : pile).ToArray();

        UnfinishedRows.Find(piles, Zones).ShouldBe(["0-3", "1-3", "2-3", "4-3", "5-3", "6-3"], ignoreOrder: true);
    }

    [Fact]
    public void A_pattern_turned_on_the_grid_is_seen_alike()
    {
        (double sin, double cos) = Math.SinCos(0.4);
        PlaceInPattern[] piles = Block("B", (column, row) => row != 3 || column < 4)
            .Select(pile => pile with
            {
                Position = new SiteCoordinate(
                    (pile.Position.XMetres * cos) - (pile.Position.YMetres * sin), (pile.Position.XMetres * sin) + (pile.Position.YMetres * cos)),
            }).ToArray();

        UnfinishedRows.Find(piles, Zones).ShouldBe(["4-3", "5-3", "6-3"], ignoreOrder: true);
    }

    private static IReadOnlySet<string> Find(string zone, Func<int, int, bool> built) => UnfinishedRows.Find(Block(zone, built), Zones);

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
