using Shouldly;
using SiteProgress.Core.SetUps;
using Xunit;

namespace SiteProgress.Core.Tests.SetUps;

/// <summary>
/// Factors and worked example: article "Weather window" of Wikipedia, after the DNV Rules for Marine Operations, Part 1, Chapter 2
/// (retrieved 2026). Net and calendar time: plain division, as in the handbooks on marine operations; common practice, no source.
/// </summary>
public sealed class WeatherWindowTests
{
    [Theory]
    [InlineData(11.9, 1, 0.68)]
    [InlineData(11.9, 2, 0.68)]
    [InlineData(11.9, 3, 0.76)]
    [InlineData(11.9, 4.1, 0.80)]
    [InlineData(12, 1.5, 0.63)]
    [InlineData(23.9, 2.5, 0.71)]
    [InlineData(5, 0.9, null)]
    [InlineData(23.9, 4.1, null)]
    [InlineData(24, 2.5, null)]
    public void The_factor_follows_reference_period_and_wave_height_and_is_not_guessed(double hours, double metres, double? factor)
        => WeatherWindow.Factor(hours, metres).ShouldBe(factor);

    [Fact]
    public void Twenty_hours_and_two_and_a_half_metres_leave_one_metre_seventy_seven()
    {
        // Published: 2.5 x 0.71 = 1.8 m for work of 20 h in all; unrounded 1.775 m.
        WeatherWindow window = WeatherWindow.Of(20, 2.5, 0);

        window.OperationalMetres!.Value.ShouldBe(1.775, 1e-9);
        window.OnForecastAlone.ShouldBeTrue();
    }

    [Fact]
    public void Where_nothing_is_said_of_the_unforeseen_the_reference_period_is_twice_the_planned_time()
    {
        WeatherWindow.Of(5, 1.5).ReferenceHours.ShouldBe(10);
        WeatherWindow.Of(36, 1.5).OnForecastAlone.ShouldBeFalse();
        WeatherWindow.Of(35.9, 1.5).OnForecastAlone.ShouldBeTrue();
    }

    [Fact]
    public void Six_hundred_piles_at_twenty_a_day_take_forty_days_where_three_days_of_four_can_be_worked()
        => WeatherWindow.CalendarTime(600 / 20.0, 0.75).ShouldBe(40, 1e-9);

    [Fact]
    public void What_is_no_time_height_or_share_is_refused()
    {
        Should.Throw<ArgumentOutOfRangeException>(() => WeatherWindow.Of(0, 1));
        Should.Throw<ArgumentOutOfRangeException>(() => WeatherWindow.Of(1, -1));
        Should.Throw<ArgumentOutOfRangeException>(() => WeatherWindow.Of(1, double.NaN));
        Should.Throw<ArgumentOutOfRangeException>(() => WeatherWindow.CalendarTime(1, 0));
        Should.Throw<ArgumentOutOfRangeException>(() => WeatherWindow.CalendarTime(1, 1.01));
    }
}
