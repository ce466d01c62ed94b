using NodaTime;
using Shouldly;
using SiteProgress.Core.Levels;
using SiteProgress.Core.Piles;
using Xunit;

namespace SiteProgress.Core.Tests.Levels;

public sealed class WaterLevelSeriesTests
{
    private static readonly Instant Midnight = Instant.FromUtc(2026, 3, 2, 0, 0);

    [Fact]
    public void Between_two_readings_the_level_goes_along_a_straight_line()
        => At(5 * 60, [[0, 0.54], [600, 0.63]]).LevelMetres!.Value.ShouldBe(0.585, 1e-12); // (0.54 + 0.63) / 2, by hand

    [Fact]
    public void At_a_reading_the_level_is_that_reading_even_where_a_gap_follows()
        => At(600, [[0, 0.54], [600, 0.63], [9000, 1.2]]).LevelMetres.ShouldBe(0.63);

    [Theory]
    [InlineData(30, true)]
    [InlineData(30.01, false)]
    public void A_gap_as_long_as_allowed_is_bridged_and_a_longer_one_is_not(double minutes, bool bridged)
        => (At(60, [[0, 0.5], [minutes * 60, 0.6]]).LevelMetres is not null).ShouldBe(bridged);

    [Fact]
    public void A_gap_is_named_with_its_ends_and_the_rule()
        => At(60, [[0, 0.5], [2700, 0.6]]).Missing.ShouldBe(
            "Gauge Quay has no reading from 2026-03-02 00:00Z to 2026-03-02 00:45Z: 45 min, more than its largest gap of 30 min.");

    [Theory]
    [InlineData(-1)]
    [InlineData(601)]
    public void Outside_the_readings_there_is_no_level(double seconds)
        => At(seconds, [[0, 0.5], [600, 0.6]]).Missing.ShouldStartWith("Gauge Quay has readings from 2026-03-02 00:00Z to 2026-03-02 00:10Z");

    [Fact]
    public void Zero_of_the_gauge_and_offset_to_the_site_are_added()
        => At(0, [[0, 3.10]], new Gauge("Quay", Midnight - Duration.FromDays(1), -2.50, 0.04, 20, "Levelling")).LevelMetres!.Value.ShouldBe(0.64, 1e-12);

    [Fact]
    public void The_description_valid_at_the_moment_counts()
    {
        Gauge first = new("Quay", Midnight - Duration.FromDays(1), -2.50, 0, 20, "First");
        Gauge moved = new("Quay", Midnight + Duration.FromMinutes(5), -2.40, 0, 20, "Staff moved");
        double[][] readings = [[0, 3.10], [600, 3.10]];

        At(0, readings, moved, first).LevelMetres!.Value.ShouldBe(0.60, 1e-12);
        At(600, readings, moved, first).LevelMetres!.Value.ShouldBe(0.70, 1e-12);
    }

    [Fact]
    public void Of_two_readings_of_one_moment_the_one_recorded_later_holds()
    {
        WaterLevelSeries series = WaterLevelSeries.Of(
            "Quay", [new WaterLevels("Quay", Midnight, [[0, 0.5]]), new WaterLevels("Quay", Midnight, [[0, 0.7]])], []);

        series.At(Midnight).LevelMetres.ShouldBe(0.7);
        series.Count.ShouldBe(1);
    }

    [Fact]
    public void A_gauge_without_readings_says_so()
        => WaterLevelSeries.Of("Quay", [], []).At(Midnight).Missing.ShouldBe("Gauge Quay has no readings.");

    private static WaterLevel At(double seconds, double[][] readings, params Gauge[] revisions)
        => WaterLevelSeries.Of("Quay", [new WaterLevels("Quay", Midnight, readings)], revisions).At(Midnight + Duration.FromSeconds(seconds));
}
