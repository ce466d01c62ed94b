using NodaTime;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Progress;

/// <summary>Which days are worked by the plan of work: rest days, holidays and restricted windows taken out.</summary>
public sealed class WorkingCalendar
{
    private readonly HashSet<IsoDayOfWeek> _rest;
    private readonly HashSet<LocalDate> _holidays;
    private readonly IReadOnlyList<RestrictedWindow> _restricted;

    /// <summary>Makes the calendar of a plan.</summary>
    public WorkingCalendar(WorkPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        _rest = [.. plan.RestWeekdays];
        _holidays = [.. plan.Holidays];
        _restricted = plan.Restricted;
    }

    /// <summary>True when the day is neither a rest day nor a holiday, nor closed to the whole site.</summary>
    public bool IsWorked(LocalDate day) => IsWorked(day, null, null);

    /// <summary>True when a barge may work in a zone on a day.</summary>
    /// <param name="day">Working day.</param>
    /// <param name="barge">Barge; null asks for any.</param>
    /// <param name="zone">Zone; null asks for any.</param>
    public bool IsWorked(LocalDate day, string? barge, string? zone)
        => !_rest.Contains(day.DayOfWeek)
            && !_holidays.Contains(day)
            && (_restricted.Count == 0 || !_restricted.Any(window => window.From <= day && day <= window.To && Closes(window.Barge, barge) && Closes(window.Zone, zone)));

    /// <summary>How many worked days lie from one day to another, both counted.</summary>
    public int CountWorked(LocalDate from, LocalDate to)
    {
        int count = 0;
        for (LocalDate day = from; day <= to; day = day.PlusDays(1))
        {
            if (IsWorked(day)) count++;
        }

        return count;
    }

    /// <summary>A window without a name closes all; one with a name closes only what bears it.</summary>
    private static bool Closes(string? named, string? asked)
        => named is null || (asked is not null && string.Equals(named, asked, StringComparison.OrdinalIgnoreCase));
}
