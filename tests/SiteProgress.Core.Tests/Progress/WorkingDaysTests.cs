using NodaTime;
using Shouldly;
using SiteProgress.Core.Progress;
using Xunit;

namespace SiteProgress.Core.Tests.Progress;

public sealed class WorkingDaysTests
{
    private static readonly WorkingDays Days = new(Invented.Settings);

    [Theory]
    [InlineData("2026-03-10T04:59:59Z", "2026-03-09", "night")] // 05:59:59 site time (UTC+1)
    [InlineData("2026-03-10T05:00:00Z", "2026-03-10", "day")]
    [InlineData("2026-03-10T16:59:59Z", "2026-03-10", "day")]
    [InlineData("2026-03-10T17:00:00Z", "2026-03-10", "night")]
    [InlineData("2026-03-10T23:35:00Z", "2026-03-10", "night")] // after midnight, site time
    public void The_working_day_runs_from_its_hour_over_midnight(string instant, string day, string shift)
    {
        WorkingMoment moment = Days.At(NodaTime.Text.InstantPattern.ExtendedIso.Parse(instant).Value);

        moment.Day.ToString("uuuu-MM-dd", null).ShouldBe(day);
        moment.Shift.ShouldBe(shift);
    }

    [Fact]
    public void The_day_of_the_spring_change_has_23_hours_and_that_of_autumn_25()
    {
        // IANA tz database, Europe/Copenhagen: clocks forward 2026-03-29 at 01:00 UTC, back 2026-10-25 at 01:00 UTC.
        Length(new LocalDate(2026, 3, 28)).ShouldBe(Duration.FromHours(23));
        Length(new LocalDate(2026, 3, 29)).ShouldBe(Duration.FromHours(24));
        Length(new LocalDate(2026, 10, 24)).ShouldBe(Duration.FromHours(25));
    }

    private static Duration Length(LocalDate day) => Days.BeginOf(day.PlusDays(1)) - Days.BeginOf(day);
}
