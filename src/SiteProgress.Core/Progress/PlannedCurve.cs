using NodaTime;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Progress;

/// <summary>A point of a cumulative curve.</summary>
/// <param name="Day">Working day.</param>
/// <param name="Piles">Piles by the end of that day.</param>
public readonly record struct CurvePoint(LocalDate Day, double Piles);

/// <summary>
/// Planned piles, cumulative, one point a day without gaps. A schedule of progress decides; where it does not name a zone, the
/// zone's dates in the plan of work do, spread evenly over the worked days. Between two dates of a schedule the piles are
/// spread evenly over the worked days as well. (Common practice, no source.)
/// </summary>
public static class PlannedCurve
{
    // A rate so low that a zone would take longer than this is a slip of the pen; the curve stops there.
    private const int MostDays = 3_660;

    /// <summary>The curve of one zone.</summary>
    /// <param name="zone">Zone.</param>
    /// <param name="piles">Piles of its design.</param>
    /// <param name="schedule">Schedule of progress in force.</param>
    /// <param name="plan">Plan of work in force.</param>
    /// <returns>One point a day from the first to the last; empty where nothing says when the zone is to be built.</returns>
    public static IReadOnlyList<CurvePoint> OfZone(string zone, int piles, IReadOnlyCollection<PlannedProgress> schedule, WorkPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        WorkingCalendar calendar = new(plan);
        CurvePoint[] stated = Stated(schedule, zone);
        if (stated.Length > 0) return Spread(stated, day => calendar.IsWorked(day, null, zone));
        ZonePlan? dates = plan.Zones.FirstOrDefault(one => string.Equals(one.Zone, zone, StringComparison.OrdinalIgnoreCase));
        return dates is null ? [] : FromDates(dates, piles, day => calendar.IsWorked(day, null, zone));
    }

    /// <summary>The curve of the site: the schedule's own for the whole site, else the zones added up.</summary>
    /// <param name="schedule">Schedule of progress in force.</param>
    /// <param name="plan">Plan of work in force.</param>
    /// <param name="zones">Curves of the zones.</param>
    public static IReadOnlyList<CurvePoint> OfSite(
        IReadOnlyCollection<PlannedProgress> schedule, WorkPlan plan, IEnumerable<IReadOnlyList<CurvePoint>> zones)
    {
        CurvePoint[] stated = Stated(schedule, null);
        if (stated.Length > 0) return Spread(stated, new WorkingCalendar(plan).IsWorked);
        IReadOnlyList<CurvePoint>[] curves = zones.Where(curve => curve.Count > 0).ToArray();
        if (curves.Length == 0) return [];
        List<CurvePoint> sum = [];
        LocalDate last = curves.Max(curve => curve[^1].Day);
        for (LocalDate day = curves.Min(curve => curve[0].Day); day <= last; day = day.PlusDays(1))
            sum.Add(new CurvePoint(day, curves.Sum(curve => At(curve, day))));
        return sum;
    }

    /// <summary>Piles planned by the end of a day: none before the curve, all after it.</summary>
    public static double At(IReadOnlyList<CurvePoint> curve, LocalDate day)
    {
        ArgumentNullException.ThrowIfNull(curve);
        if (curve.Count == 0 || day < curve[0].Day) return 0;
        int index = Period.DaysBetween(curve[0].Day, day);
        return index < curve.Count ? curve[index].Piles : curve[^1].Piles;
    }

    private static CurvePoint[] Stated(IEnumerable<PlannedProgress> schedule, string? zone)
        => schedule.Where(one => zone is null ? one.Zone is null : string.Equals(one.Zone, zone, StringComparison.OrdinalIgnoreCase))
            .GroupBy(one => one.Day).Select(day => new CurvePoint(day.Key, day.Max(one => one.CumulativePiles)))
            .OrderBy(point => point.Day).ToArray();

    private static List<CurvePoint> Spread(CurvePoint[] stated, Func<LocalDate, bool> isWorked)
    {
        List<CurvePoint> curve = [stated[0]];
        foreach ((CurvePoint from, CurvePoint to) in stated.Zip(stated.Skip(1)))
        {
            int steps = Period.DaysBetween(from.Day, to.Day);
            bool[] worked = Enumerable.Range(1, steps).Select(step => isWorked(from.Day.PlusDays(step))).ToArray();
            // A stretch without any worked day still has to arrive where the schedule says.
            if (!worked.Contains(true)) worked[^1] = true;
            int all = worked.Count(one => one);
            for (int step = 1, done = 0; step <= steps; step++)
            {
                if (worked[step - 1]) done++;
                curve.Add(new CurvePoint(from.Day.PlusDays(step), from.Piles + ((to.Piles - from.Piles) * done / all)));
            }
        }

        return curve;
    }

    private static List<CurvePoint> FromDates(ZonePlan dates, int piles, Func<LocalDate, bool> isWorked)
    {
        List<CurvePoint> curve = [];
        double rate = dates.PilesPerDay is { } given ? (double)given : RateTo(dates, piles, isWorked);
        double done = 0;
        for (LocalDate day = dates.Begins; curve.Count < MostDays && rate > 0 && done < piles; day = day.PlusDays(1))
        {
            if (isWorked(day)) done = Math.Min(piles, done + rate);
            if (dates.Ends == day) done = piles;
            curve.Add(new CurvePoint(day, done));
        }

        return curve;
    }

    private static double RateTo(ZonePlan dates, int piles, Func<LocalDate, bool> isWorked)
    {
        if (dates.Ends is not { } ends || ends < dates.Begins) return 0;
        int worked = Enumerable.Range(0, Period.DaysBetween(dates.Begins, ends) + 1).Count(step => isWorked(dates.Begins.PlusDays(step)));
        return (double)piles / Math.Max(1, worked);
    }
}
