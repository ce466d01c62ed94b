using NodaTime;
using Shouldly;
using SiteProgress.Core.Piles;
using SiteProgress.Web.Planning;
using Xunit;

namespace SiteProgress.Web.Tests.Planning;

/// <summary>What the address of a plan asks for, read or refused by name.</summary>
public sealed class PlanQueryTests
{
    [Theory]
    [InlineData("along", "wide", "\"wide\" is no reach along")]
    [InlineData("set-up-minutes", "1,5", "\"1,5\" is no minutes for a set-up")]
    [InlineData("headings", "0, north", "\"0, north\" are no headings")]
    [InlineData("begins", "1 June", "\"1 June\" is no day on which the plan begins; expected year-month-day, such as 2026-06-01.")]
    [InlineData("hours-a-day", "NaN", "\"NaN\" is no hours worked a day")]
    [InlineData("slack", "half an hour", "\"half an hour\" is no minutes of slack water")]
    [InlineData("slack-for", "moving", "\"moving\" needs no slack water; expected anchors, set-ups or both.")]
    [InlineData("draught", "3,2", "\"3,2\" is no draught; expected a number with a decimal point.")]
    [InlineData("seabed", "A -11; B", "\"B\" is no seabed of a zone; expected each zone once")]
    [InlineData("seabed", "A -11; A -12", "\"A -12\" is no seabed of a zone; expected each zone once")]
    [InlineData("spacings", "4.2 and 6.3", "\"4.2 and 6.3\" are no spacings; expected metres parted by commas, such as 4.2, 6.3.")]
    [InlineData("sea", "1e999", "\"1e999\" is no wave height")]
    [InlineData("workable", "most", "\"most\" is no share of the time")]
    public void A_part_that_cannot_be_read_is_named_with_what_was_expected(string part, string text, string said)
    {
        (var request, string? unread) = new PlanQuery((part, text)).Read();

        request.ShouldBeNull();
        unread.ShouldNotBeNull().ShouldStartWith(said);
    }

    [Fact]
    public void Every_part_comes_to_the_request()
    {
        PlanQuery query = new(
            ("barge", "Tern"), ("zones", "A, B"), ("begins", "2026-06-01"), ("hours-a-day", "12"), ("slack", "45"), ("slack-lag", "\u221220"), ("slack-for", "both"), ("in-slack", "90"),
            ("draught", "3.2"), ("keel", "0.8"), ("seabed", "A \u221211.5; b -12"), ("spacings", "4.2, 6.3"), ("change-hours", "10"), ("sea", "1.5"), ("unforeseen", "2"), ("workable", "75"));

        var times = query.Read().Request!.Times!;

        (times.Begins, times.HoursPerDay, times.SlackMinutes, times.SlackLagMinutes, times.SlackUse, times.InWindowMinutes).ShouldBe((new LocalDate(2026, 6, 1), 12, 45, -20, SlackUse.Both, 90));
        (times.DraughtMetres, times.KeelMetres, times.ChangeHours, times.SeaMetres, times.UnforeseenHours, times.WorkableRatio).ShouldBe((3.2, 0.8, 10, 1.5, 2, 0.75));
        times.SpacingsMetres.ShouldBe([4.2, 6.3]);
        (times.Seabeds!["a"], times.Seabeds["B"]).ShouldBe((-11.5, -12));
    }

    [Fact]
    public void Two_addresses_that_ask_the_same_are_the_same_whatever_is_empty()
    {
        new PlanQuery(("barge", "Tern"), ("draught", "")).Equals(new PlanQuery(("barge", "Tern"))).ShouldBeTrue();
        new PlanQuery(("barge", "Tern"), ("draught", "3")).Equals(new PlanQuery(("barge", "Tern"))).ShouldBeFalse();
        new PlanQuery(("barge", "Tern"), ("draught", "3")).At("/sites/s/plan").ShouldBe("/sites/s/plan?barge=Tern&draught=3");
        new PlanQuery(("hours-a-day", "24")).AsksTimes.ShouldBeFalse();
    }
}
