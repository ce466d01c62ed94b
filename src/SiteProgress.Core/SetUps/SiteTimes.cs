using NodaTime;
using SiteProgress.Core.Levels;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;

namespace SiteProgress.Core.SetUps;

/// <summary>Times in which a barge may work, by the plan of work and by the current.</summary>
public static class SiteTimes
{
    /// <summary>Times in which a barge may work in a zone: the hours worked of every day it is on site that is no rest day, holiday or closed period.</summary>
    /// <param name="plan">Plan of work.</param>
    /// <param name="days">The site's working days.</param>
    /// <param name="barge">Barge.</param>
    /// <param name="zone">Code of the zone.</param>
    /// <param name="from">The moment from which it is asked.</param>
    /// <param name="count">How many days ahead are looked at.</param>
    /// <param name="hoursPerDay">Hours worked of a day from its beginning; 24 or more for the whole day, also where the clocks change.</param>
    public static OpenTimes Working(WorkPlan plan, WorkingDays days, string barge, string zone, Instant from, int count, double hoursPerDay)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(days);
        WorkingCalendar calendar = new(plan);
        BargePlan? stay = plan.Barges.FirstOrDefault(one => string.Equals(one.Barge, barge, StringComparison.OrdinalIgnoreCase));
        LocalDate first = days.At(from).Day;
        return OpenTimes.Of(Enumerable.Range(0, count).Select(ahead => first.PlusDays(ahead))
            .Where(day => calendar.IsWorked(day, barge, zone) && (stay?.From is not { } comes || comes <= day) && (stay?.Until is not { } leaves || day <= leaves))
            .Select(day => Clipped(from, days.BeginOf(day), hoursPerDay >= 24 ? days.BeginOf(day.PlusDays(1)) : days.BeginOf(day) + Duration.FromHours(hoursPerDay))));
    }

    /// <summary>Windows of slack water by the tide alone: so long before and after every high and low water, so much later.</summary>
    /// <param name="tide">The tide.</param>
    /// <param name="from">First moment.</param>
    /// <param name="to">Last moment.</param>
    /// <param name="half">Half the length of a window.</param>
    /// <param name="lag">How much later than high and low water the current turns; below zero where earlier.</param>
    public static OpenTimes Slack(TidePrediction tide, Instant from, Instant to, Duration half, Duration lag)
    {
        ArgumentNullException.ThrowIfNull(tide);
        return OpenTimes.Of(tide.Turns(from - lag - half, to - lag + half).Select(turn => Clipped(from, turn + lag - half, turn + lag + half)));
    }

    /// <summary>Windows of slack water that were entered for a barge and a use; null where none were entered for that use.</summary>
    /// <param name="plan">Plan of work.</param>
    /// <param name="barge">Barge.</param>
    /// <param name="use">Anchors or set-ups.</param>
    public static OpenTimes? Entered(WorkPlan plan, string barge, SlackUse use)
    {
        ArgumentNullException.ThrowIfNull(plan);
        SlackWindow[] windows = [.. (plan.Windows ?? []).Where(window => (window.Use == use || window.Use == SlackUse.Both) && (window.Barge is null || string.Equals(window.Barge, barge, StringComparison.OrdinalIgnoreCase)))];
        return windows.Length == 0 ? null : OpenTimes.Of(windows.Select(window => new Interval(window.From, window.To)));
    }

    private static Interval Clipped(Instant from, Instant begin, Instant end) => new(Instant.Max(from, begin), Instant.Max(from, end));
}
