using Bunit;
using Shouldly;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Outstanding;
using SiteProgress.Web.Outstanding;
using Xunit;

namespace SiteProgress.Web.Tests.Outstanding;

/// <summary>What the page of outstanding piles shows and how its address reads.</summary>
public sealed class OutstandingComponentsTests : BunitContext
{
    [Fact]
    public void An_address_says_again_what_it_was_read_from()
    {
        OutstandingQuery query = OutstandingQuery.Read("/p", "B", "gaps", "y", "desc", 3);

        query.Request.ShouldBe(new ReadOutstanding.Request("B", OutstandingKind.Gap, ReadOutstanding.Order.Y, true, 200, 100));
        query.PageOf(3).ShouldBe("/p?zone=B&what=gaps&sort=y&order=desc&page=3");
        query.SortedBy(ReadOutstanding.Order.Y).ShouldBe("/p?zone=B&what=gaps&sort=y");
    }

    [Theory]
    [InlineData("7")]
    [InlineData("number; drop")]
    [InlineData(null)]
    public void An_unknown_order_is_that_of_the_numbers(string? sort)
        => OutstandingQuery.Read("/p", null, null, sort, null, null).Request.OrderedBy.ShouldBe(ReadOutstanding.Order.Number);

    [Fact]
    public void Gaps_and_waiting_records_stand_apart_with_their_numbers()
    {
        OutstandingView left = View() with
        {
            Gaps = [Pile("A-0518", OutstandingKind.Gap) with { Neighbours = 8, BuiltNeighbours = 7 }],
            Awaiting =
            [
                new(12, "PLV-00203", MatchOutcome.NumberContradictsPosition, "B-0930", true, "B-0929", 2.1, 0.02, "Plover", 3, new(2026, 3, 21)),
                new(13, null, MatchOutcome.NothingPlannedWithinReach, "<b>A-1</b>", false, null, 6_173_382.9, null, "Tern", null, null),
            ],
        };

        IRenderedComponent<LookFirst> shown = Render<LookFirst>(with => with.Add(one => one.Site, "x").Add(one => one.Left, left));

        shown.Find("section[aria-labelledby=gaps] tbody tr").TextContent.ShouldContain("7 of 8");
        shown.Find("section[aria-labelledby=attempted]").TextContent.ShouldContain("None");
        var records = shown.FindAll("section[aria-labelledby=awaiting] tbody tr");
        records[0].TextContent.ShouldContain("number contradicts position");
        records[0].QuerySelectorAll("a").Select(link => link.GetAttribute("href")).ShouldBe(["/sites/x/piles/B-0930", "/sites/x/piles/B-0929"]);
        records[1].TextContent.ShouldContain("<b>A-1</b>");
        records[1].TextContent.ShouldContain("> 100 km");
        records[1].QuerySelectorAll("a").ShouldBeEmpty();
    }

    [Fact]
    public void Piles_of_rows_left_unfinished_are_counted_apart_and_lead_to_their_list()
    {
        OutstandingView left = View() with { Zones = [new("A", "", 100, 40, 600, 0, 0, 0, 0, 5), new("B", "", 100, 40, 600, 0, 0, 0, 0, 3)] };

        IRenderedComponent<LookFirst> shown = Render<LookFirst>(with => with.Add(one => one.Site, "x").Add(one => one.Left, left));

        shown.Find("section[aria-labelledby=rows] a").TextContent.ShouldBe("8 piles");
        shown.Find("section[aria-labelledby=rows] a").GetAttribute("href").ShouldBe("/sites/x/outstanding?what=rows#list");
        OutstandingQuery.Read("/p", null, "rows", null, null, null).Request.Kind.ShouldBe(OutstandingKind.UnfinishedRow);
    }

    [Fact]
    public void Where_the_least_length_stands_in_it_is_marked()
    {
        OutstandingView left = View() with
        {
            Total = 1,
            Rows = [Pile("B-0001", OutstandingKind.NotAttempted) with { TipLevelMetres = null, IsLeastLength = true, DesignLengthMetres = 14 }],
        };

        IRenderedComponent<OutstandingList> list = Render<OutstandingList>(with => with
            .Add(one => one.Site, "x").Add(one => one.Left, left).Add(one => one.Query, OutstandingQuery.Read("/p", null, null, null, null, null)));

        list.Find("tbody tr").TextContent.ShouldContain("≥ 14.00");
        list.Find("abbr.missing").GetAttribute("title")!.ShouldContain("stop criterion");
    }

    private static OutstandingView View() => new(1, "Europe/Copenhagen", [], [], [], [], 0, []);

    private static OutstandingPile Pile(string number, OutstandingKind kind)
        => new(number, "A", PileState.Outstanding, kind, 1000, 2000, -12.5, -28, 15.5, false, 0, null, null, null);
}
