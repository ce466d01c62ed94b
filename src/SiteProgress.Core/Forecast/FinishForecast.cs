using System.Globalization;
using NodaTime;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Forecast;

/// <summary>When the work will be done, and how sure that is.</summary>
/// <param name="AsOf">Last working day of the history.</param>
/// <param name="Site">Finish of the whole site.</param>
/// <param name="Zones">Finish by zone.</param>
/// <param name="Chances">Share of the runs that were done by each day, from the first to the last finish.</param>
/// <param name="TargetRatio">Share of the runs that met the day asked for; null where none was asked.</param>
/// <param name="Runs">Runs.</param>
/// <param name="HistoryDays">Working days of the history.</param>
/// <param name="Notes">What the reader must know of it: how little history there is, what was assumed.</param>
public sealed record FinishForecast(
    LocalDate AsOf,
    FinishDates Site,
    IReadOnlyList<ZoneFinish> Zones,
    IReadOnlyList<DayChance> Chances,
    double? TargetRatio,
    int Runs,
    int HistoryDays,
    IReadOnlyList<string> Notes)
{
    /// <summary>Least working days of history below which the forecast says how little it knows.</summary>
    public static int LittleHistoryDays => 20;

    /// <summary>Makes a forecast.</summary>
    /// <returns>The forecast; null where there is no history to draw from or no zone.</returns>
    public static FinishForecast? Of(ForecastInput input, ForecastOptions options)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(options);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(options.Runs);
        Simulation simulation = new(input, options);
        if (!simulation.CanRun || input.Zones.Count == 0) return null;
        FinishCounts counts = FinishCounts.Of(simulation, input.Zones.Count, options.Runs);
        return new FinishForecast(
            input.AsOf,
            counts.Site(simulation.Future),
            input.Zones.Select((zone, index) => new ZoneFinish(zone.Zone, zone.SetUps, zone.Piles, counts.Zone(index, simulation.Future))).ToArray(),
            counts.Chances(simulation.Future),
            input.Target is { } target ? counts.RatioBy(target, simulation.Future) : null,
            options.Runs,
            simulation.Pool.Days.Length,
            NotesOf(input, options, simulation.Pool));
    }

    private static string[] NotesOf(ForecastInput input, ForecastOptions options, HistoryPool pool)
    {
        List<string> notes = [];
        int days = pool.Days.Length;
        if (days < LittleHistoryDays)
            notes.Add(Say($"Only {days} working days are on record; with fewer than {LittleHistoryDays} the dates say little."));
        foreach (BargeHistory barge in input.Barges.Where(one => one.Days.Count < 2 * options.RampDays))
        {
            notes.Add(barge.Days.Count == 0
                ? Say($"{barge.Barge} has no working day here yet; it is taken to work like the others, after {options.RampDays} days of ramp-up at {pool.RampRatio * 100:0} % of their output.")
                : Say($"{barge.Barge} has only {barge.Days.Count} working days here."));
        }

        foreach (BargePlan plan in input.Plan.Barges.Where(one => one.Until is not null)) notes.Add(Say($"{plan.Barge} is planned to leave after {plan.Until:uuuu-MM-dd}."));
        if (days > 0 && pool.Days[0].Month is var first && pool.Days.Select(day => day.Month).Distinct().Count() < 6)
            notes.Add(Say($"The history covers {Month(first)} to {Month(pool.Days[^1].Month)} only; weather of another season is not in it."));
        return notes.ToArray();
    }

    private static string Month(int month) => CultureInfo.InvariantCulture.DateTimeFormat.GetMonthName(month);

    private static string Say(FormattableString sentence) => sentence.ToString(CultureInfo.InvariantCulture);
}

/// <summary>Days by which one, five and nine of ten runs were done.</summary>
/// <param name="P10">By this day one run of ten was done; null where fewer were within four years.</param>
/// <param name="P50">Half of the runs; null where fewer were within four years.</param>
/// <param name="P90">Nine of ten; null where fewer were within four years.</param>
public sealed record FinishDates(LocalDate? P10, LocalDate? P50, LocalDate? P90)
{
    /// <summary>
    /// Share of the runs that ended from P10 to P90, both days counted; null where there is no P90. Days are whole, so it is above 0.8,
    /// and the more so the fewer days are left.
    /// </summary>
    public double? InsideRatio { get; init; }
}

/// <summary>Finish of a zone.</summary>
/// <param name="Zone">Zone.</param>
/// <param name="SetUps">Set-ups left, without rework.</param>
/// <param name="Piles">Piles left.</param>
/// <param name="Finish">When.</param>
public sealed record ZoneFinish(string Zone, int SetUps, int Piles, FinishDates Finish);

/// <summary>Share of the runs done by a day.</summary>
/// <param name="Day">The day.</param>
/// <param name="Ratio">Share, 0 to 1.</param>
public readonly record struct DayChance(LocalDate Day, double Ratio);
