using NodaTime;
using Shouldly;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;
using Xunit;

namespace SiteProgress.Core.Tests.Progress;

public sealed class HoursOfDayTests
{
    private static readonly LocalDate Day = new(2026, 5, 29);

    [Theory]
    [InlineData("installing", "piles", TimeKind.Installing)]
    [InlineData("standby", "weather", TimeKind.Weather)]
    [InlineData("Standby", "swell", TimeKind.Weather)]
    [InlineData("break-down", "anchor winch", TimeKind.Mechanical)]
    [InlineData("breakdown", "sand bucket hoist", TimeKind.Mechanical)]
    [InlineData("anchors", "laying anchors, field A00", TimeKind.Anchors)]
    [InlineData("moving", "winching to the next set-up", TimeKind.Moving)]
    [InlineData("sand", "loading from sand barge", TimeKind.Sand)]
    [InlineData("hold point", "release of first piles, zone A", TimeKind.HoldPoint)]
    [InlineData("rest day", "no work planned", TimeKind.Rest)]
    [InlineData("waiting", "no time for a set-up before the rest day", TimeKind.Waiting)]
    [InlineData("visit", "of the harbour master", TimeKind.Other)]
    public void A_crews_words_tell_the_kind_of_time(string activity, string cause, TimeKind kind)
        => HoursOfDay.KindOf(Entry(activity, cause, 1)).ShouldBe(kind);

    [Fact]
    public void Hours_that_leave_some_of_the_day_out_do_not_add_up()
    {
        HoursOfDay day = new(Day, "Tern", [Entry("installing", null, 10.5m), Entry("moving", null, 13.4m)], 24);

        day.MissingHours.ShouldBe(0.1m);
        day.AddsUp.ShouldBeFalse();
        (day with { Entries = [.. day.Entries, Entry("survey", null, 0.1m)] }).AddsUp.ShouldBeTrue();
    }

    [Theory]
    [InlineData("2026-03-28", 23)]
    [InlineData("2026-03-29", 24)]
    [InlineData("2026-10-24", 25)]
    public void A_working_day_is_as_long_as_the_clocks_make_it(string day, int hours)
        => HoursOfDay.LengthOf(NodaTime.Text.LocalDatePattern.Iso.Parse(day).Value, new WorkingDays(Invented.Settings)).ShouldBe(hours);

    private static DiaryEntry Entry(string activity, string? cause, decimal hours) => new(Day, "Tern", activity, cause, "contractor", hours);
}
