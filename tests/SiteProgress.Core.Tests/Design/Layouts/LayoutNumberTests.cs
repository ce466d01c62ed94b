using Shouldly;
using SiteProgress.Core.Design.Layouts;
using SiteProgress.Core.Piles;
using Xunit;

namespace SiteProgress.Core.Tests.Design.Layouts;

public sealed class LayoutNumberTests
{
    // Three columns, two rows; of a square pattern at 10 m.
    private static readonly LayoutInputs Block = Laying.Rectangle(20, 10) with { SpacingMetres = 10 };

    // An L: three places in the first row, one in the second, at the far end.
    private static readonly LayoutInputs Ell = Laying.Inputs((0, 0), (20, 0), (20, 10), (15, 10), (15, 5), (0, 5)) with { SpacingMetres = 10 };

    [Fact]
    public void A_running_number_has_its_start_step_and_digits()
        => Numbers(Block, new("A-{count:4}", FirstPlace: 10, PlaceStep: 5)).ShouldBe("A-0010 A-0015 A-0020 A-0025 A-0030 A-0035");

    [Fact]
    public void Row_and_place_make_a_number()
        => Numbers(Block, new("B{row:2}-C{place:2}", FirstRow: 7, FirstPlace: 12)).ShouldBe("B07-C12 B07-C13 B07-C14 B08-C12 B08-C13 B08-C14");

    [Fact]
    public void Rows_may_have_letters_and_steps()
        => Numbers(Block, new("{letter}{place}", FirstRow: 26, RowStep: 1)).ShouldBe("Z1 Z2 Z3 AA1 AA2 AA3");

    [Fact]
    public void Serpentine_counts_every_second_row_the_other_way()
    {
        LaidPile[] piles = Piles(Block, new("{count}", Serpentine: true));

        piles.Select(pile => (pile.Number, pile.Position.XMetres, pile.Position.YMetres)).ShouldBe([("1", 0, 0), ("2", 10, 0), ("3", 20, 0), ("4", 20, 10), ("5", 10, 10), ("6", 0, 10)]);
    }

    [Theory]
    [InlineData(false, false, "0,0")]
    [InlineData(true, false, "0,10")]
    [InlineData(false, true, "20,0")]
    [InlineData(true, true, "20,10")]
    public void The_first_pile_stands_at_any_corner(bool rowsBackwards, bool pilesBackwards, string first)
    {
        LaidPile[] piles = Piles(Block, new("{row}/{place}", RowsBackwards: rowsBackwards, PilesBackwards: pilesBackwards));

        piles[0].Number.ShouldBe("1/1");
        FormattableString.Invariant($"{piles[0].Position.XMetres},{piles[0].Position.YMetres}").ShouldBe(first);
    }

    [Fact]
    public void Places_are_counted_in_the_row_or_by_column()
    {
        Numbers(Ell, new("{row}/{place}")).ShouldBe("1/1 1/2 1/3 2/1");
        Numbers(Ell, new("{row}/{place}", ByColumn: true)).ShouldBe("1/1 1/2 1/3 2/3");
        Numbers(Ell, new("{row}/{place}", ByColumn: true, PilesBackwards: true)).ShouldBe("1/1 1/2 1/3 2/1");
    }

    [Theory]
    [InlineData(1, "A")]
    [InlineData(26, "Z")]
    [InlineData(27, "AA")]
    [InlineData(52, "AZ")]
    [InlineData(53, "BA")]
    [InlineData(702, "ZZ")]
    [InlineData(703, "AAA")]
    public void Letters_go_on_as_the_columns_of_a_spreadsheet_do(int row, string letters)
        => Piles(Block, new("{letter}.{place}", FirstRow: row))[0].Number.ShouldBe(letters + ".1");

    [Theory]
    [InlineData("A-1", "A-1 and others stand more than once, 5 times in all")]
    [InlineData("{place}", "1 and others stand more than once, 3 times in all")]
    public void A_pattern_that_gives_a_number_twice_is_refused(string pattern, string found)
        => Problem(new(pattern)).Found.ShouldBe(found);

    [Theory]
    [InlineData("")]
    [InlineData("{number}")]
    [InlineData("{count")]
    [InlineData("count}")]
    [InlineData("{count:}")]
    [InlineData("{count:0}")]
    [InlineData("{count:99}")]
    [InlineData("{letter:2}")]
    [InlineData("{{count}}")]
    public void A_pattern_that_cannot_be_read_is_refused(string pattern) => Problem(new(pattern)).Where.ShouldBe("Numbers");

    [Fact]
    public void Steps_and_starts_out_of_reach_are_refused()
    {
        Problem(new("{count}", PlaceStep: 0)).Where.ShouldBe("Step");
        Problem(new("{count}", FirstPlace: -1)).Where.ShouldBe("First number");
        Problem(new("{row}-{place}", RowStep: -1)).Where.ShouldBe("Row step");
        Problem(new("{letter}-{place}", FirstRow: 0)).Expected.ShouldContain("1 is A");
    }

    private static string Numbers(LayoutInputs inputs, NumberingRule rule) => string.Join(' ', Piles(inputs, rule).Select(pile => pile.Number));

    private static LaidPile[] Piles(LayoutInputs inputs, NumberingRule rule) => [.. PileLayout.Of(inputs with { Numbering = rule }).Layout!.Piles];

    private static LayoutProblem Problem(NumberingRule rule) => PileLayout.Of(Block with { Numbering = rule }).Problems.ShouldHaveSingleItem();
}
