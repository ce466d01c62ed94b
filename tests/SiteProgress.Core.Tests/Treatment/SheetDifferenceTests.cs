using Shouldly;
using SiteProgress.Core.Treatment;
using Xunit;

namespace SiteProgress.Core.Tests.Treatment;

public sealed class SheetDifferenceTests
{
    [Fact]
    public void Sheets_that_are_alike_have_no_line_that_differs()
        => SheetDifference.Between(Of(("top", "1"), ("tip", "2")), Of(("top", "1"), ("tip", "2"))).ShouldBeEmpty();

    [Fact]
    public void A_changed_a_vanished_and_a_new_line_are_told_with_both_values()
        => SheetDifference.Between(Of(("top", "1"), ("tip", "2"), ("sand", "3")), Of(("top", "1"), ("tip", "2.1"), ("length", "4")))
            .ShouldBe([new SheetChange("tip", "2", "2.1"), new SheetChange("sand", "3", null), new SheetChange("length", null, "4")]);

    [Fact]
    public void Of_a_label_that_stands_twice_the_first_is_held_against_the_first()
        => SheetDifference.Between(Of(("stands on record", "5"), ("outcome", "complete"), ("stands on record", "9"), ("outcome", "complete")), Of(("stands on record", "5"), ("outcome", "refused")))
            .ShouldBe([new SheetChange("outcome", "complete", "refused"), new SheetChange("stands on record", "9", null), new SheetChange("outcome", "complete", null)]);

    [Fact]
    public void Every_line_of_a_sheet_of_nothing_is_gone_and_of_a_sheet_from_nothing_is_new()
    {
        SheetDifference.Between(Of(("top", "1")), Of()).ShouldBe([new SheetChange("top", "1", null)]);
        SheetDifference.Between(Of(), Of(("top", "1"))).ShouldBe([new SheetChange("top", null, "1")]);
    }

    private static Sheet Of(params (string Label, string Value)[] lines) => new("sheet", [.. lines.Select(line => new SheetLine(line.Label, line.Value))]);
}
