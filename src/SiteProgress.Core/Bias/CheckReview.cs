using MathNet.Numerics.Distributions;
using NodaTime;

namespace SiteProgress.Core.Bias;

/// <summary>What the check measurements of a barge, or of one of its casings against the others, show.</summary>
/// <param name="Barge">Barge.</param>
/// <param name="Casing">Casing, measured against the others of its visit, or with one of its calibrations by itself; null for the barge.</param>
/// <param name="Measurements">How many.</param>
/// <param name="Visits">At how many set-ups.</param>
/// <param name="FirstDay">First working day.</param>
/// <param name="LastDay">Last working day.</param>
/// <param name="ForwardMetres">Recorded minus measured, forward, metres; east where no heading is known.</param>
/// <param name="StarboardMetres">Recorded minus measured, to starboard, metres; north where no heading is known.</param>
/// <param name="ForwardStandardError">Standard error, metres.</param>
/// <param name="StarboardStandardError">Standard error, metres.</param>
/// <param name="InBargeAxes">True when the two are forward and starboard.</param>
/// <param name="Chance">Chance of so large a mean when there is no offset.</param>
/// <param name="Adjusted">Smallest false-discovery bound at which it is singled out.</param>
/// <param name="StandsOut">True when that is at most 5 % and the mean at least the least size that is named.</param>
/// <param name="Sentence">What it means, as a sentence.</param>
public sealed record CheckFinding(
    string Barge,
    int? Casing,
    int Measurements,
    int Visits,
    LocalDate? FirstDay,
    LocalDate? LastDay,
    double ForwardMetres,
    double StarboardMetres,
    double ForwardStandardError,
    double StarboardStandardError,
    bool InBargeAxes,
    double Chance,
    double Adjusted,
    bool StandsOut,
    string Sentence)
{
    /// <summary>Sequence of the calibration the positions were recorded with, where those of one calibration are tested; else null.</summary>
    public long? Calibration { get; init; }

    /// <summary>Length of the mean, metres.</summary>
    public double SizeMetres => Math.Sqrt((ForwardMetres * ForwardMetres) + (StarboardMetres * StarboardMetres));
}

/// <summary>
/// Holds recorded positions against independent ones. Only this finds an error that a barge both steers by and records with.
/// Measurements of one visit share the barge's error, so visits are what the test counts.
/// </summary>
public static class CheckReview
{
    private const int LeastVisits = 3;

    /// <summary>Tests each barge, each casing against the others of its barge, and each calibration of a casing that has several.</summary>
    /// <param name="checks">Check measurements, any order.</param>
    /// <param name="leastSizeMetres">Nothing smaller is named, metres.</param>
    public static IReadOnlyList<CheckFinding> Of(IReadOnlyCollection<CheckedPosition> checks, double leastSizeMetres)
    {
        ArgumentNullException.ThrowIfNull(checks);
        CheckFinding[] found = checks
            .Where(one => double.IsFinite(one.DifferenceEastMetres + one.DifferenceNorthMetres))
            .GroupBy(one => one.Barge).OrderBy(group => group.Key, StringComparer.Ordinal)
            .SelectMany(group => OfBarge(group.Key, group.ToArray())).ToArray();
        double[] adjusted = FalseDiscovery.Adjusted(Array.ConvertAll(found, one => one.Chance));
        return found.Select((one, index) => one with { Adjusted = adjusted[index], StandsOut = adjusted[index] <= GroupTest.Bound && one.SizeMetres >= leastSizeMetres })
            .Select(one => one with { Sentence = CheckSentences.Of(one, leastSizeMetres) }).ToArray();
    }

    /// <summary>What check measurements in the scope of a cause say about which of record and piles is wrong.</summary>
    internal static CheckSupport Support(Cause cause, CauseFit fit, Instant? from, Instant? to, IReadOnlyCollection<CheckedPosition> checks)
    {
        if (cause.Barge is null || fit.Values.Count != 2) return CheckSupport.None;
        CheckedPosition[] scope = checks.Where(one => one.Barge == cause.Barge && (cause.Casing is null || one.Casing == cause.Casing)
            && one.HeadingDegrees is not null && (from is null || one.At >= from - Duration.FromHours(2)) && (to is null || one.At <= to)).ToArray();
        if (scope.Length == 0) return CheckSupport.None;
        (double[] first, double[] second) = Visits(scope);
        (double x, double y) = (first.Average(), second.Average());
        double stated = Math.Sqrt(scope.Average(one => Math.Pow(one.UncertaintyMetres / 1.96, 2)));
        double variance = stated * stated / first.Length;
        bool fitsRecord = Fits(x - fit.Values[0].Value, y - fit.Values[1].Value, variance, fit);
        bool fitsPiles = Fits(x, y, variance, null);
        ClaimStanding standing = (fitsRecord, fitsPiles) switch
        {
            (true, false) => ClaimStanding.RecordWrong,
            (false, true) => ClaimStanding.PilesWrong,
            _ => ClaimStanding.Unsettled,
        };
        return new CheckSupport(standing, scope.Length, first.Length, x, y, Math.Sqrt(variance));
    }

    /// <summary>True when a difference may be chance at 1 %: chi-square with two degrees of freedom.</summary>
    private static bool Fits(double first, double second, double variance, CauseFit? fit)
    {
        double ofFirst = variance + (fit is null ? 0 : Math.Pow(fit.Values[0].StandardError, 2));
        double ofSecond = variance + (fit is null ? 0 : Math.Pow(fit.Values[1].StandardError, 2));
        return (first * first / ofFirst) + (second * second / ofSecond) <= ChiSquared.InvCDF(2, 0.99);
    }

    private static IEnumerable<CheckFinding> OfBarge(string barge, CheckedPosition[] checks)
    {
        bool axes = checks.All(one => one.HeadingDegrees is not null);
        (double[] first, double[] second) = Visits(checks);
        yield return Finding(barge, null, checks, axes, first, second);
        foreach (CheckFinding one in OfCalibrations(barge, checks)) yield return one;
        if (!axes) yield break;
        int[] casings = checks.Select(one => one.Casing).Distinct().Order().ToArray();
        if (casings.Length < 2) yield break;
        foreach (int casing in casings)
        {
            (double Forward, double Starboard)[] against = checks.GroupBy(one => one.Visit)
                .Select(visit => (Own: visit.Where(one => one.Casing == casing).ToArray(), Others: visit.Where(one => one.Casing != casing).ToArray()))
                .Where(visit => visit.Own.Length > 0 && visit.Others.Length > 0)
                .Select(visit => (visit.Own.Average(Forward) - visit.Others.Average(Forward), visit.Own.Average(Starboard) - visit.Others.Average(Starboard)))
                .ToArray();
            if (against.Length == 0) continue;
            CheckedPosition[] own = Array.FindAll(checks, one => one.Casing == casing);
            yield return Finding(barge, casing, own, true, Array.ConvertAll(against, one => one.Forward), Array.ConvertAll(against, one => one.Starboard));
        }
    }

    /// <summary>Each calibration of a casing that was checked under more than one: an offset put in or taken out by a calibration shows here.</summary>
    private static IEnumerable<CheckFinding> OfCalibrations(string barge, CheckedPosition[] checks)
    {
        foreach (IGrouping<int, CheckedPosition> casing in checks.Where(one => one.Calibration is not null).GroupBy(one => one.Casing).OrderBy(group => group.Key))
        {
            IGrouping<long, CheckedPosition>[] calibrations = casing.GroupBy(one => one.Calibration!.Value).OrderBy(group => group.Key).ToArray();
            if (calibrations.Length < 2) continue;
            foreach (IGrouping<long, CheckedPosition> calibration in calibrations)
            {
                CheckedPosition[] own = [.. calibration];
                (double[] first, double[] second) = Visits(own);
                yield return Finding(barge, casing.Key, own, own.All(one => one.HeadingDegrees is not null), first, second) with { Calibration = calibration.Key };
            }
        }
    }

    private static CheckFinding Finding(string barge, int? casing, CheckedPosition[] checks, bool axes, double[] first, double[] second)
    {
        int visits = first.Length;
        double stated = Math.Sqrt(checks.Average(one => Math.Pow(one.UncertaintyMetres / 1.96, 2)) / visits);
        return new CheckFinding(
            barge, casing, checks.Length, visits, checks.Min(one => one.Day), checks.Max(one => one.Day), first.Average(), second.Average(),
            Math.Max(stated, StandardError(first)), Math.Max(stated, StandardError(second)), axes,
            visits >= LeastVisits ? Hotelling.Of(first, second).Probability : 1, 1, false, "");
    }

    /// <summary>One mean a visit, forward and starboard; east and north where no heading is known.</summary>
    private static (double[] First, double[] Second) Visits(CheckedPosition[] checks)
    {
        bool axes = checks.All(one => one.HeadingDegrees is not null);
        (double First, double Second)[] means = checks.GroupBy(one => one.Visit)
            .Select(visit => axes ? (visit.Average(Forward), visit.Average(Starboard)) : (visit.Average(one => one.DifferenceEastMetres), visit.Average(one => one.DifferenceNorthMetres)))
            .ToArray();
        return (Array.ConvertAll(means, one => one.First), Array.ConvertAll(means, one => one.Second));
    }

    private static double StandardError(double[] values)
        => values.Length < 2 ? 0 : Deviations.AxisFigures.Of(values).StandardDeviationMetres!.Value / Math.Sqrt(values.Length);

    private static double Forward(CheckedPosition one) => BargeFrame.FromGrid(one.DifferenceEastMetres, one.DifferenceNorthMetres, one.HeadingDegrees!.Value).ForwardMetres;

    private static double Starboard(CheckedPosition one) => BargeFrame.FromGrid(one.DifferenceEastMetres, one.DifferenceNorthMetres, one.HeadingDegrees!.Value).StarboardMetres;
}
