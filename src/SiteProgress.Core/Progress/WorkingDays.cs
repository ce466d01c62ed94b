using NodaTime;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Progress;

/// <summary>
/// The one place that turns an instant into a site's working day and shift. The day begins at the site's own hour, so
/// what happens after midnight belongs to the day before until then.
/// </summary>
public sealed class WorkingDays
{
    private readonly DateTimeZone _zone;
    private readonly LocalTime _begins;
    private readonly IReadOnlyList<Shift> _shifts;

    /// <summary>Makes the calendar of a site.</summary>
    /// <exception cref="ArgumentException">The settings name a time zone that the IANA data does not hold.</exception>
    public WorkingDays(SiteSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        _zone = DateTimeZoneProviders.Tzdb.GetZoneOrNull(settings.TimeZone)
            ?? throw new ArgumentException($"There is no IANA time zone '{settings.TimeZone}'.", nameof(settings));
        _begins = settings.WorkingDayBegins;
        _shifts = settings.Shifts;
    }

    /// <summary>The site's time zone.</summary>
    public DateTimeZone Zone => _zone;

    /// <summary>Working day and shift in which an instant falls, in site time with its daylight-saving changes.</summary>
    public WorkingMoment At(Instant instant)
    {
        LocalDateTime local = instant.InZone(_zone).LocalDateTime;
        LocalDate day = local.TimeOfDay < _begins ? local.Date.PlusDays(-1) : local.Date;
        return new WorkingMoment(day, ShiftAt(local.TimeOfDay));
    }

    /// <summary>The instant at which a working day begins; in a skipped hour, the first instant after it.</summary>
    public Instant BeginOf(LocalDate workingDay) => _zone.AtLeniently(workingDay.At(_begins)).ToInstant();

    private string ShiftAt(LocalTime time)
    {
        if (_shifts.Count == 0) return "";
        string found = _shifts[^1].Name;
        long since = SecondsSinceBegin(time);
        foreach (Shift shift in _shifts)
        {
            if (SecondsSinceBegin(shift.Begins) <= since) found = shift.Name;
        }

        return found;
    }

    private long SecondsSinceBegin(LocalTime time)
    {
        const long SecondsPerDay = 86_400;
        long seconds = (time.TickOfDay - _begins.TickOfDay) / NodaConstants.TicksPerSecond;
        return (seconds + SecondsPerDay) % SecondsPerDay;
    }
}

/// <summary>A working day and a shift of it.</summary>
/// <param name="Day">The working day.</param>
/// <param name="Shift">Name of the shift; empty where the site has none.</param>
public readonly record struct WorkingMoment(LocalDate Day, string Shift);
