using NodaTime;

namespace SiteProgress.Core.Outstanding;

/// <summary>Piles completed on one working day.</summary>
/// <param name="Day">Working day.</param>
/// <param name="Piles">Piles completed.</param>
public readonly record struct PilesOfDay(LocalDate Day, int Piles);

/// <summary>
/// The mean of the last working days with records, and when the rest would be built if it went on exactly so. It is arithmetic,
/// not a forecast: it knows no weather, no season and no move of a barge.
/// </summary>
/// <param name="Days">Working days with records that were averaged.</param>
/// <param name="FirstDay">First of them.</param>
/// <param name="LastDay">Last of them.</param>
/// <param name="PilesPerDay">Piles completed per such day.</param>
/// <param name="DaysNeeded">Such days the rest would take; null when none was completed.</param>
/// <param name="AtThatRate">The date, when days without records come as often as they did in those days; null when none was completed
/// or the date would lie more than fifty years ahead.</param>
public sealed record RateOfLastDays(
    int Days, LocalDate FirstDay, LocalDate LastDay, decimal PilesPerDay, int? DaysNeeded, LocalDate? AtThatRate)
{
    private const int FiftyYearsInDays = 18_263;

    /// <summary>Works out the rate.</summary>
    /// <param name="days">Working days with records, one entry a day, any order. Leave the day in progress out: it is not over.</param>
    /// <param name="remaining">Piles still to be built.</param>
    /// <param name="daysAveraged">How many of the last days to average, above zero.</param>
    /// <returns>The rate; null when there is no day.</returns>
    public static RateOfLastDays? Of(IEnumerable<PilesOfDay> days, int remaining, int daysAveraged)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(daysAveraged);
        PilesOfDay[] last = days.OrderByDescending(day => day.Day).Take(daysAveraged).ToArray();
        if (last.Length == 0) return null;
        LocalDate first = last[^1].Day;
        int piles = last.Sum(day => day.Piles);
        int calendarDays = Period.DaysBetween(first, last[0].Day) + 1;
        // Whole numbers throughout, so that no rounding adds a day: remaining / (piles / days), rounded up.
        long? needed = piles > 0 ? CeilingOf((long)remaining * last.Length, piles) : null;
        long? ahead = piles > 0 ? CeilingOf((long)remaining * calendarDays, piles) : null;
        return new RateOfLastDays(
            last.Length,
            first,
            last[0].Day,
            (decimal)piles / last.Length,
            (int?)needed,
            ahead <= FiftyYearsInDays ? last[0].Day.PlusDays((int)ahead.Value) : null);
    }

    private static long CeilingOf(long dividend, long divisor) => (dividend + divisor - 1) / divisor;
}
