using NodaTime;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Forecast;

/// <summary>How far one assumption moves the middle of the forecast.</summary>
/// <param name="Assumption">The assumption, changed, as a sentence.</param>
/// <param name="Days">Days by which the P50 moves; above zero is later; null where the work is no longer done within four years.</param>
public sealed record AssumptionShift(string Assumption, int? Days);

/// <summary>
/// Changes one assumption at a time and looks how far the P50 moves. The same chance is used each time, so that a shift is the
/// assumption's and not the dice's.
/// </summary>
public static class Assumptions
{
    /// <summary>The shifts, the largest first.</summary>
    /// <param name="input">The forecast's input.</param>
    /// <param name="options">How it was made; fewer runs are enough for a middle.</param>
    public static IReadOnlyList<AssumptionShift> Of(ForecastInput input, ForecastOptions options)
    {
        ArgumentNullException.ThrowIfNull(input);
        if (FinishForecast.Of(input, options)?.Site.P50 is not { } middle) return [];
        List<(string Sentence, ForecastInput Input, ForecastOptions Options)> changed =
        [
            ("All barges do a tenth less on every day", input, options with { RateFactor = options.RateFactor * 0.9 }),
            ("All barges do a tenth more on every day", input, options with { RateFactor = options.RateFactor * 1.1 }),
            ("Work has to be done again twice as often", input, options with { ReworkFactor = options.ReworkFactor * 2 }),
            ("A tenth more set-ups are needed, as casings reach fewer piles", input with { Zones = input.Zones.Select(zone => zone with { SetUps = (int)Math.Ceiling(zone.SetUps * 1.1) }).ToArray() }, options),
            ("Only the last 25 working days tell how it goes on", input, options with { LastDaysOnly = 25 }),
        ];
        BargeHistory[] there = input.Barges.Where(barge => barge.Days.Count > 0).ToArray();
        if (input.Barges.Count > 1)
        {
            foreach (BargeHistory barge in there)
                changed.Add(($"{barge.Barge} leaves today", Without(input, barge.Barge), options));
        }

        return changed
            .Select(one => new AssumptionShift(one.Sentence, FinishForecast.Of(one.Input, one.Options)?.Site.P50 is { } moved ? Period.DaysBetween(middle, moved) : null))
            .OrderByDescending(one => Math.Abs(one.Days ?? int.MaxValue)).ToArray();
    }

    private static ForecastInput Without(ForecastInput input, string barge)
    {
        BargePlan gone = new(barge, null, input.AsOf, input.Plan.Barges.FirstOrDefault(one => one.Barge == barge)?.Zones ?? []);
        return input with { Plan = input.Plan with { Barges = [.. input.Plan.Barges.Where(one => one.Barge != barge), gone] } };
    }
}
