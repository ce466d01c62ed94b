using Shouldly;
using SiteProgress.Jobs.Deviations;
using SiteProgress.Web.Deviations;
using SiteProgress.Web.Shell;
using Xunit;

namespace SiteProgress.Web.Tests.Deviations;

/// <summary>The address holds what is asked for, and nothing else.</summary>
public sealed class DeviationQueryTests
{
    [Fact]
    public void An_address_says_again_what_it_was_read_from()
    {
        DeviationQuery query = Read("B", "Plover", 3, "2026-03-30", "2026-04-09", "first", "beyond", "north", "asc", 2);

        query.Selection.ShouldBe(new DeviationSelection("B", "Plover", 3, new(2026, 3, 30), new(2026, 4, 9), AttemptChoice.First));
        query.Request.Position.ShouldBe(PositionChoice.Beyond);
        query.Request.OrderedBy.ShouldBe(ListDeviations.Order.North);
        query.Request.Descending.ShouldBeFalse();
        query.Request.Skip.ShouldBe(50);
        query.Address.ToString().ShouldBe("/p?zone=B&barge=Plover&casing=3&from=2026-03-30&to=2026-04-09&attempt=first&judged=beyond&sort=north&order=asc");
        query.PageOf(2).ShouldEndWith("&page=2");
    }

    [Fact]
    public void Frames_drawn_on_pictures_and_the_shift_live_in_the_address()
    {
        DeviationQuery query = DeviationQuery.Read("/p", null, null, null, null, null, null, null, null, null, null, new Framed("night", "-50,20.5,-30,60", "1000,1100,2000,2050", "100,150"));

        query.Selection.ShouldBe(new DeviationSelection(
            Shift: "night", Deviating: new Box(-0.05, 0.0205, -0.03, 0.06), Place: new Box(1000, 1100, 2000, 2050), RadialFrom: 0.1, RadialBelow: 0.15));
        query.Address.ToString().ShouldBe("/p?shift=night&frame=-50%2C20.5%2C-30%2C60&place=1000%2C1100%2C2000%2C2050&radial=100%2C150");
        query.WithFrame(null).ShouldNotContain("frame");
        query.WithRadial(new ChartFrame(-5, 40, 0, 9)).ShouldEndWith("radial=0%2C40");
        query.Words.ShouldContain("dE -50 to 21 mm");
    }

    [Fact]
    public void A_frame_over_time_chooses_its_days_and_a_box_its_casing()
    {
        DateOnly[] days = [new(2026, 3, 1), new(2026, 3, 2), new(2026, 3, 5)];
        DeviationQuery query = DeviationQuery.Read("/p", "A", null, null, null, null, null, null, null, null, null);

        query.WithDays(new ChartFrame(0.6, 7, -10, 10), days).ShouldBe("/p?zone=A&from=2026-03-02&to=2026-03-05");
        query.WithDays(new ChartFrame(1, 1, 0, 0), []).ShouldBe("/p?zone=A");
        DeviationQuery.Read("/p", null, null, null, "2026-03-01", "2026-03-02", null, null, null, null, null).WithDays(null, days).ShouldBe("/p");
        query.WithCasing("Plover", 3).ShouldBe("/p?zone=A&barge=Plover&casing=3");
        query.WithCasing("Plover", null).ShouldBe("/p?zone=A&barge=Plover");
    }

    [Theory]
    [InlineData("1,2,3")]
    [InlineData("a,b,c,d")]
    [InlineData("1,2,NaN,4")]
    [InlineData("")]
    public void A_frame_that_cannot_be_read_is_not_asked_for(string frame)
        => DeviationQuery.Read("/p", null, null, null, null, null, null, null, null, null, null, new Framed(null, frame, frame, frame)).Selection.ShouldBe(DeviationSelection.All);

    [Fact]
    public void A_bare_address_asks_for_everything_the_farthest_first()
    {
        DeviationQuery query = Read();

        query.Selection.ShouldBe(DeviationSelection.All);
        query.Request.OrderedBy.ShouldBe(ListDeviations.Order.Radial);
        query.Request.Descending.ShouldBeTrue();
        query.Address.ToString().ShouldBe("/p");
    }

    [Fact]
    public void What_cannot_be_read_is_not_asked_for()
    {
        DeviationQuery query = Read(zone: " ", from: "30.3.2026", attempt: "third", judged: "maybe", sort: "'; drop table", page: -4);

        query.Selection.ShouldBe(DeviationSelection.All);
        query.Request.Position.ShouldBeNull();
        query.Page.ShouldBe(1);
        query.Address.ToString().ShouldBe("/p");
    }

    [Fact]
    public void A_page_number_beyond_all_counting_does_not_overflow() => Read(page: int.MaxValue).Request.Skip.ShouldBeGreaterThan(0);

    [Fact]
    public void Another_filter_goes_back_to_the_first_page_and_keeps_the_rest()
        => Read(barge: "Tern", page: 3).With("zone", "A & B").ShouldBe("/p?barge=Tern&zone=A%20%26%20B");

    [Fact]
    public void The_same_column_again_turns_the_order_round()
    {
        Read().SortedBy(ListDeviations.Order.Radial).ShouldBe("/p?order=asc");
        Read(order: "asc").SortedBy(ListDeviations.Order.Radial).ShouldBe("/p");
        Read().SortedBy(ListDeviations.Order.Number).ShouldBe("/p?sort=number");
        Read(sort: "number").SortedBy(ListDeviations.Order.Number).ShouldBe("/p?sort=number&order=desc");
    }

    [Fact]
    public void A_print_says_what_was_chosen()
        => Read(barge: "Plover", from: "2026-03-30", judged: "beyond").Words
            .ShouldBe("Chosen: all zones, barge Plover, all casings, from 2026-03-30, listed: beyond limit.");

    [Fact]
    public void The_map_is_narrowed_as_far_as_it_can_be_and_says_when_that_is_not_all()
    {
        DeviationQuery day = Read(zone: "A", barge: "Tern", from: "2026-03-30", to: "2026-03-30");
        day.OnMap("/map").ToString().ShouldBe("/map?zone=A&barge=Tern&day=2026-03-30");
        day.IsWhollyOnMap.ShouldBeTrue();
        Read(to: "2026-03-30").OnMap("/map").ToString().ShouldBe("/map?through=2026-03-30");
        Read(to: "2026-03-30").IsWhollyOnMap.ShouldBeTrue();
        DeviationQuery days = Read(casing: 2, from: "2026-03-28", to: "2026-03-30");
        days.OnMap("/map").ToString().ShouldBe("/map?through=2026-03-30");
        days.IsWhollyOnMap.ShouldBeFalse();
        Read(casing: 2).IsWhollyOnMap.ShouldBeFalse();
        Read(from: "2026-03-28").IsWhollyOnMap.ShouldBeFalse();
    }

    private static DeviationQuery Read(
        string? zone = null, string? barge = null, int? casing = null, string? from = null, string? to = null, string? attempt = null, string? judged = null,
        string? sort = null, string? order = null, int? page = null)
        => DeviationQuery.Read("/p", zone, barge, casing, from, to, attempt, judged, sort, order, page);
}
