using NodaTime;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Progress;

/// <summary>One set-up as the records show it.</summary>
/// <param name="Barge">Barge.</param>
/// <param name="SetUp">Name of the set-up.</param>
/// <param name="Begin">First casing touched down.</param>
/// <param name="End">Last casing left its pile.</param>
/// <param name="Attempts">Attempts made from it.</param>
public sealed record SetUpTimes(string Barge, string SetUp, Instant Begin, Instant End, int Attempts);

/// <summary>Typical times of one barge, each the median, minutes; null where the records hold none.</summary>
/// <param name="Barge">Barge.</param>
/// <param name="SetUps">Set-ups counted.</param>
/// <param name="AttemptsPerSetUp">Attempts per set-up, the mean: how many casings of a set-up were used.</param>
/// <param name="SetUpToSetUpMinutes">From the beginning of one set-up to that of the next.</param>
/// <param name="OnPilesMinutes">From the first touch-down of a set-up to the last casing out.</param>
/// <param name="PenetrationMinutes">From touch-down to the casing's deepest.</param>
/// <param name="WithdrawalMinutes">From the casing's deepest to out of the pile.</param>
/// <param name="MovingMinutes">From the last casing out to the first touch-down of the next set-up.</param>
public sealed record CycleFigures(
    string Barge,
    int SetUps,
    double AttemptsPerSetUp,
    double? SetUpToSetUpMinutes,
    double? OnPilesMinutes,
    double? PenetrationMinutes,
    double? WithdrawalMinutes,
    double? MovingMinutes);

/// <summary>
/// Cycle times from the records. Medians, so that a night of weather between two set-ups does not count as moving; gaps longer
/// than six hours are left out altogether. (Common practice, no source.)
/// </summary>
public static class CycleTimes
{
    private static readonly Duration LongestGap = Duration.FromHours(6);

    /// <summary>The set-ups the records hold, by barge and beginning; attempts without set-up, start or end are left out.</summary>
    public static IReadOnlyList<SetUpTimes> SetUps(IEnumerable<Installation> attempts)
        => attempts.Where(one => one is { SetUp: not null, Start: not null, End: not null } && one.End >= one.Start)
            .GroupBy(one => (one.Barge, SetUp: one.SetUp!))
            .Select(group => new SetUpTimes(group.Key.Barge, group.Key.SetUp, group.Min(one => one.Start!.Value), group.Max(one => one.End!.Value), group.Count()))
            .OrderBy(one => one.Barge, StringComparer.Ordinal).ThenBy(one => one.Begin).ThenBy(one => one.SetUp, StringComparer.Ordinal)
            .ToArray();

    /// <summary>Typical times by barge.</summary>
    public static IReadOnlyList<CycleFigures> Of(IReadOnlyCollection<Installation> attempts)
    {
        ArgumentNullException.ThrowIfNull(attempts);
        ILookup<string, Installation> byBarge = attempts.ToLookup(one => one.Barge);
        return SetUps(attempts).GroupBy(one => one.Barge).Select(group =>
        {
            SetUpTimes[] ofBarge = group.ToArray();
            (SetUpTimes Before, SetUpTimes After)[] pairs = ofBarge.Zip(ofBarge.Skip(1)).Where(pair => pair.Second.Begin - pair.First.End <= LongestGap).ToArray();
            return new CycleFigures(
                group.Key,
                ofBarge.Length,
                ofBarge.Average(one => one.Attempts),
                Median(pairs.Select(pair => Minutes(pair.Before.Begin, pair.After.Begin))),
                Median(ofBarge.Select(one => Minutes(one.Begin, one.End))),
                Median(byBarge[group.Key].Where(one => one is { Start: not null, EndOfPenetration: not null }).Select(one => Minutes(one.Start!.Value, one.EndOfPenetration!.Value))),
                Median(byBarge[group.Key].Where(one => one is { End: not null, EndOfPenetration: not null }).Select(one => Minutes(one.EndOfPenetration!.Value, one.End!.Value))),
                Median(pairs.Select(pair => Minutes(pair.Before.End, pair.After.Begin))));
        }).ToArray();
    }

    private static double Minutes(Instant from, Instant to) => (to - from).TotalMinutes;

    private static double? Median(IEnumerable<double> values)
    {
        double[] sorted = values.Where(value => value >= 0).Order().ToArray();
        return sorted.Length == 0 ? null : (sorted[(sorted.Length - 1) / 2] + sorted[sorted.Length / 2]) / 2;
    }
}
