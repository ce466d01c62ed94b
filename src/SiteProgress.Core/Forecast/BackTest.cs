using NodaTime;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Forecast;

/// <summary>What the forecast would have said on one day of the past, and what happened.</summary>
/// <param name="Day">Last working day it would have known of.</param>
/// <param name="Finish">The finish it would have named.</param>
/// <param name="FewSetUps">Set-ups of the next four weeks that nine of ten runs would have reached.</param>
/// <param name="MiddleSetUps">That half of the runs would have reached.</param>
/// <param name="ManySetUps">That one run of ten would have reached.</param>
/// <param name="DoneSetUps">Set-ups that were done in those four weeks; null where they are not over.</param>
public sealed record BackTestWeek(
    LocalDate Day, FinishDates Finish, int FewSetUps, int MiddleSetUps, int ManySetUps, int? DoneSetUps)
{
    /// <summary>True when what happened lies between few and many; null while the four weeks are not over.</summary>
    public bool? Inside => DoneSetUps is { } done ? done >= FewSetUps && done <= ManySetUps : null;
}

/// <summary>
/// Makes the forecast of every past week from what was known then, and holds it against what happened. The barges' coming was
/// known from the plan; the work left then is what is left now and what was done since.
/// </summary>
public static class BackTest
{
    /// <summary>Calendar days looked ahead.</summary>
    public static int AheadDays => 28;

    private const int LeastDays = 10;

    /// <summary>One entry a week, from the first week with ten working days of history.</summary>
    /// <param name="input">The input of today's forecast.</param>
    /// <param name="options">How each forecast is made.</param>
    public static IReadOnlyList<BackTestWeek> Of(ForecastInput input, ForecastOptions options)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(options);
        LocalDate[] days = input.Barges.SelectMany(barge => barge.Days).Select(day => day.Day).Distinct().Order().ToArray();
        List<BackTestWeek> weeks = [];
        if (days.Length <= LeastDays) return weeks;
        for (LocalDate day = days[LeastDays - 1]; day <= input.AsOf; day = day.PlusDays(7)) weeks.Add(Week(input, options, day));
        return weeks;
    }

    private static BackTestWeek Week(ForecastInput input, ForecastOptions options, LocalDate day)
    {
        ForecastInput then = AsKnown(input, day);
        Simulation simulation = new(then, options);
        int[] done = new int[options.Runs];
        for (int run = 0; run < done.Length; run++) done[run] = simulation.DoneIn(AheadDays);
        Array.Sort(done);
        LocalDate end = day.PlusDays(AheadDays);
        int? happened = end <= input.AsOf ? input.Barges.SelectMany(barge => barge.Days).Where(one => one.Day > day && one.Day <= end).Sum(one => one.SetUps) : null;
        return new BackTestWeek(
            day,
            FinishForecast.Of(then, options)?.Site ?? new FinishDates(null, null, null),
            done[(int)Math.Ceiling(0.1 * done.Length) - 1],
            done[(int)Math.Ceiling(0.5 * done.Length) - 1],
            done[(int)Math.Ceiling(0.9 * done.Length) - 1],
            happened);
    }

    private static ForecastInput AsKnown(ForecastInput input, LocalDate day)
    {
        int since = input.Barges.SelectMany(barge => barge.Days).Where(one => one.Day > day).Sum(one => one.SetUps);
        int left = input.Zones.Sum(zone => zone.SetUps) + since;
        BargeHistory[] barges = input.Barges.Select(barge => new BargeHistory(barge.Barge, barge.Days.Where(one => one.Day <= day).ToArray(), null)).ToArray();
        BargePlan[] plans = input.Barges.Select(barge =>
        {
            BargePlan? plan = input.Plan.Barges.FirstOrDefault(one => one.Barge == barge.Barge);
            return new BargePlan(barge.Barge, barge.Days.Count > 0 ? barge.Days[0].Day : plan?.From, plan?.Until, []);
        }).ToArray();
        return input with
        {
            AsOf = day,
            Barges = barges,
            Zones = [new ZoneLeft("site", left, left)],
            Plan = input.Plan with { Barges = plans },
            Target = null,
        };
    }
}
