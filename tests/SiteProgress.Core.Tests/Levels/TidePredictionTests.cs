using NodaTime;
using Shouldly;
using SiteProgress.Core.Levels;
using Xunit;

namespace SiteProgress.Core.Tests.Levels;

/// <summary>
/// The tide told beyond the readings. Test tides are made from speeds worked out of the Doodson numbers and the mean rates of the
/// astronomical arguments (Schureman, Manual of harmonic analysis and prediction of tides, 1958, table 1; from memory), not from the table of the code.
/// </summary>
public sealed class TidePredictionTests
{
    // Degrees an hour: mean lunar time, and the mean longitudes of moon, sun and lunar perigee.
    private const double Sun = 0.04106864, Moon = 0.54901653, Perigee = 0.00464183, Lunar = 15 - Moon + Sun;

    private static readonly Instant From = Instant.FromUtc(2026, 3, 2, 5, 0);

    private static readonly (double Speed, double Metres, double Phase)[] Made =
    [
        (2 * Lunar, 0.98, 75), ((2 * Lunar) + (2 * Moon) - (2 * Sun), 0.31, 18), ((2 * Lunar) - Moon + Perigee, 0.2, 140), (Lunar + Moon, 0.12, 200), (Lunar - Moon, 0.09, 310), (4 * Lunar, 0.05, 60),
    ];

    [Fact]
    public void A_tide_made_of_six_constituents_is_told_a_month_beyond_ninety_days_of_readings()
    {
        TidePrediction tide = TidePrediction.Of(Readings(90, 0))!;

        for (int hour = 0; hour < 30 * 24; hour++)
        {
            Instant at = From + Duration.FromDays(90) + Duration.FromHours(hour);
            tide.AtMetres(at).ShouldBe(Level(at), 0.002);
        }

        tide.SpreadMetres.ShouldBeLessThan(0.001);
        tide.Told.ShouldBe(["M2", "K1", "O1", "S2", "N2", "M4", "MS4", "Q1", "M6", "MSf"]);
    }

    [Fact]
    public void Noise_is_told_as_spread_and_hardly_moves_the_tide()
    {
        TidePrediction tide = TidePrediction.Of(Readings(90, 0.1))!;

        tide.SpreadMetres.ShouldBe(0.1, 0.005);
        Instant later = From + Duration.FromDays(100);
        tide.AtMetres(later).ShouldBe(Level(later), 0.02);
    }

    [Fact]
    public void A_record_too_short_to_tell_the_greatest_two_apart_gives_no_tide()
    {
        // M2 and S2 come apart in 360 / 1.0158958 h, the age from spring to spring (Foreman, 1977; from memory).
        TidePrediction.ShortestRecord.TotalDays.ShouldBe(14.765, 0.001);
        TidePrediction.Of(Readings(14, 0)).ShouldBeNull();
        TidePrediction.Of(Readings(15, 0))!.Told.ShouldContain("S2");
        TidePrediction.Of([]).ShouldBeNull();
    }

    [Fact]
    public void High_and_low_waters_are_where_the_made_tide_turns()
    {
        TidePrediction tide = TidePrediction.Of(Readings(90, 0))!;
        Instant from = From + Duration.FromDays(91);

        IReadOnlyList<Instant> turns = tide.Turns(from, from + Duration.FromDays(5));

        // Twice high and twice low a lunar day of 24.84 h.
        turns.Count.ShouldBeInRange(18, 20);
        foreach (Instant turn in turns)
        {
            double before = Level(turn - Duration.FromMinutes(15)), at = Level(turn), after = Level(turn + Duration.FromMinutes(15));
            ((at - before) * (at - after)).ShouldBeGreaterThan(0);
        }
    }

    private static (Instant, double)[] Readings(int days, double noise)
    {
        Random chance = new(3);
        return [.. Enumerable.Range(0, (days * 144) + 1).Select(step => From + Duration.FromMinutes(10 * step))
            .Select(at => (at, Level(at) + (noise * Math.Sqrt(-2 * Math.Log(1 - chance.NextDouble())) * Math.Cos(2 * Math.PI * chance.NextDouble()))))];
    }

    private static double Level(Instant at) => 0.4 + Made.Sum(one => one.Metres * Math.Cos(((one.Speed * (at - From).TotalHours) - one.Phase) * Math.PI / 180));
}
