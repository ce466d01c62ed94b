using Shouldly;
using SiteProgress.Core.Design;
using SiteProgress.Core.Deviations;
using SiteProgress.Core.Piles;
using Xunit;

namespace SiteProgress.Core.Tests.Design;

public sealed class DesignDifferenceTests
{
    private static readonly PlannedPile[] Row = [.. Enumerable.Range(1, 6).Select(index => Invented.Planned($"A-{index}", index * 2.1, 0))];

    [Fact]
    public void A_design_does_not_differ_from_itself_in_whatever_order()
    {
        DesignDifference difference = Between(Row, [.. Row.Reverse()]);

        difference.IsNothing.ShouldBeTrue();
        (difference.Unchanged, difference.Rounded).ShouldBe((6, 0));
    }

    [Fact]
    public void Added_taken_out_and_moved_piles_are_told_apart()
    {
        PlannedPile[] after = [.. Row.Skip(1).SkipLast(1), Row[5] with { Position = new(12.9, -0.4) }, Invented.Planned("A-9", 30, 0)];

        DesignDifference difference = Between(Row, after);

        difference.Lines.Select(line => (line.Number, line.Kind)).ShouldBe([("A-1", DesignChangeKind.Deleted), ("A-6", DesignChangeKind.Moved), ("A-9", DesignChangeKind.Added)]);
        PositionDeviation shift = difference.Lines[1].Shift!.Value;
        (shift.EastMetres, shift.NorthMetres).ShouldBe((0.3, -0.4), Tolerance);
        shift.RadialMetres.ShouldBe(0.5, 1e-9); // 3-4-5
        difference.Unchanged.ShouldBe(4);
    }

    [Fact]
    public void A_move_is_given_along_CRS_grid_east_and_north_where_the_site_grid_is_turned()
    {
        // Axes turned by a quarter: the first axis of the site points north, the second west.
        GridRotation quarter = new(0, 1, -1, 0);

        DesignChangeLine line = DesignDifference.Between([Row[0]], [Row[0] with { Position = new(2.1 + 0.25, 0.10) }], quarter).Lines.ShouldHaveSingleItem();

        (line.Shift!.Value.EastMetres, line.Shift.Value.NorthMetres).ShouldBe((-0.10, 0.25), Tolerance);
    }

    [Fact]
    public void A_row_whose_numbers_are_shifted_by_one_is_renumbered_and_not_moved()
    {
        PlannedPile[] after = [.. Row.Select((pile, index) => pile with { Number = $"A-{index + 2}" })];

        DesignDifference difference = Between(Row, after);

        difference.Lines.Select(line => (line.Before!.Number, line.After!.Number, line.Kind)).ShouldBe(
            Enumerable.Range(1, 6).Select(index => ($"A-{index}", $"A-{index + 1}", DesignChangeKind.Renumbered)));
    }

    [Fact]
    public void Two_exchanged_numbers_are_renumbered_and_not_moved()
        => Between(Row, [Row[1] with { Number = "A-1" }, Row[0] with { Number = "A-2" }, .. Row.Skip(2)]).Lines.Select(line => line.Kind)
            .ShouldBe([DesignChangeKind.Renumbered, DesignChangeKind.Renumbered]);

    [Fact]
    public void Up_to_ten_millimetres_are_rounding_and_are_counted_as_such()
    {
        DesignDifference rounded = Between(Row, [Row[0] with { Position = new(2.11, 0) }, .. Row.Skip(1)]);
        rounded.IsNothing.ShouldBeTrue();
        (rounded.Unchanged, rounded.Rounded).ShouldBe((6, 1));
        rounded.LargestRoundedMetres.ShouldBe(0.010, 1e-9);

        Between(Row, [Row[0] with { Position = new(2.1101, 0) }, .. Row.Skip(1)]).Lines.ShouldHaveSingleItem().Kind.ShouldBe(DesignChangeKind.Moved);
    }

    [Fact]
    public void Other_values_are_named_with_what_they_were_and_are()
    {
        DesignChangeLine line = Between(Row, [Row[0] with { TipLevelMetres = -31, DiameterMetres = 1.8, LeastLengthMetres = 12, Remark = "edge", Zone = "B" }, .. Row.Skip(1)]).Lines.ShouldHaveSingleItem();

        line.Kind.ShouldBe(DesignChangeKind.Changed);
        line.Fields.ShouldBe(
        [
            new FieldChange(DesignField.Zone, null, null, "A", "B"), new FieldChange(DesignField.Diameter, 2.0, 1.8), new FieldChange(DesignField.TipLevel, -30.5, -31),
            new FieldChange(DesignField.LeastLength, null, 12), new FieldChange(DesignField.Remark, null, null, "", "edge"),
        ]);
        line.TouchesWork.ShouldBeTrue();
    }

    [Fact]
    public void A_remark_alone_and_a_number_alone_touch_no_work()
    {
        Between(Row, [Row[0] with { Remark = "seen" }, .. Row.Skip(1)]).Lines.ShouldHaveSingleItem().TouchesWork.ShouldBeFalse();
        Between(Row, [Row[0] with { Number = "Z-1" }, .. Row.Skip(1)]).Lines.ShouldHaveSingleItem().TouchesWork.ShouldBeFalse();
    }

    [Fact]
    public void What_is_added_is_what_the_way_back_takes_out()
    {
        PlannedPile[] after = [.. Row.Skip(2), Invented.Planned("A-7", 14.7, 0), Row[0] with { Position = new(2.1, 3) }];
        DesignDifference there = Between(Row, after), back = Between(after, Row);

        back.Count(DesignChangeKind.Deleted).ShouldBe(there.Count(DesignChangeKind.Added));
        back.Count(DesignChangeKind.Added).ShouldBe(there.Count(DesignChangeKind.Deleted));
        back.Lines.Single(line => line.Kind == DesignChangeKind.Moved).Shift!.Value.NorthMetres.ShouldBe(-there.Lines.Single(line => line.Kind == DesignChangeKind.Moved).Shift!.Value.NorthMetres);
    }

    private static readonly IEqualityComparer<(double, double)> Tolerance = EqualityComparer<(double, double)>.Create(
        (one, other) => Math.Abs(one.Item1 - other.Item1) < 1e-9 && Math.Abs(one.Item2 - other.Item2) < 1e-9);

    private static DesignDifference Between(PlannedPile[] before, PlannedPile[] after) => DesignDifference.Between(before, after, Invented.NoTurn);
}
