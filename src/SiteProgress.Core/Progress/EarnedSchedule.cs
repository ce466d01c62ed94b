namespace SiteProgress.Core.Progress;

/// <summary>
/// Where the work stands against its schedule, in time. The volume index always returns to 1 when all is built, even late; the
/// index in time does not.
/// </summary>
/// <remarks>
/// ES = C + I, C the number of whole periods whose planned value is earned, I = (EV - PV(C)) / (PV(C+1) - PV(C));
/// SV(t) = ES - AT; SPI(t) = ES / AT; IEAC(t) = PD / SPI(t); TSPI = (PD - ES) / (PD - AT).
/// Source: Lipke and Henderson, "Earned Schedule: an emerging enhancement to earned value management", 2006, slides 16 and 24.
/// </remarks>
/// <param name="EarnedPeriods">ES: the period by whose end the plan wanted what is done now.</param>
/// <param name="ActualPeriods">AT: periods gone by.</param>
/// <param name="PlannedPeriods">PD: periods the plan takes.</param>
/// <param name="VolumeIndexRatio">SPI: earned over planned value; null where nothing was planned by now.</param>
/// <param name="TimeIndexRatio">SPI(t); null before the first period ends.</param>
/// <param name="EstimatePeriods">IEAC(t): periods in all if the index stays as it is; null while nothing is earned.</param>
/// <param name="ToCompleteIndexRatio">TSPI: index needed from now on to end in time; null once the planned periods have gone by.</param>
public sealed record EarnedSchedule(
    double EarnedPeriods,
    double ActualPeriods,
    double PlannedPeriods,
    double? VolumeIndexRatio,
    double? TimeIndexRatio,
    double? EstimatePeriods,
    double? ToCompleteIndexRatio)
{
    /// <summary>SV(t): periods ahead of the plan; below zero where the work is late.</summary>
    public double VariancePeriods => EarnedPeriods - ActualPeriods;

    /// <summary>Works out where the work stands.</summary>
    /// <param name="plannedValue">Planned value, cumulative, at the end of each period; never falling.</param>
    /// <param name="earned">Earned value now, in the same unit.</param>
    /// <param name="actualPeriods">Periods gone by, zero or more.</param>
    /// <returns>The standing; null where the plan is empty or plans nothing.</returns>
    /// <exception cref="ArgumentException">The planned value falls somewhere.</exception>
    public static EarnedSchedule? Of(IReadOnlyList<double> plannedValue, double earned, int actualPeriods)
    {
        ArgumentNullException.ThrowIfNull(plannedValue);
        ArgumentOutOfRangeException.ThrowIfNegative(actualPeriods);
        for (int period = 1; period < plannedValue.Count; period++)
        {
            if (plannedValue[period] < plannedValue[period - 1]) throw new ArgumentException("A cumulative plan never falls.", nameof(plannedValue));
        }

        double whole = plannedValue.Count == 0 ? 0 : plannedValue[^1];
        if (whole <= 0) return null;
        // What is planned after the last pile is no period of the plan.
        int planned = plannedValue.Count;
        while (planned > 1 && plannedValue[planned - 2] >= whole) planned--;
        double es = Earned(plannedValue, planned, earned);
        double due = actualPeriods == 0 ? 0 : plannedValue[Math.Min(actualPeriods, plannedValue.Count) - 1];
        double? timeIndex = actualPeriods > 0 ? es / actualPeriods : null;
        return new EarnedSchedule(
            es,
            actualPeriods,
            planned,
            due > 0 ? earned / due : null,
            timeIndex,
            timeIndex > 0 ? planned / timeIndex : null,
            actualPeriods < planned ? (planned - es) / (planned - actualPeriods) : null);
    }

    private static double Earned(IReadOnlyList<double> plannedValue, int planned, double earned)
    {
        if (earned <= 0) return 0;
        if (earned >= plannedValue[planned - 1]) return planned;
        int whole = 0;
        while (whole < planned && plannedValue[whole] <= earned) whole++;
        double before = whole == 0 ? 0 : plannedValue[whole - 1];
        return whole + ((earned - before) / (plannedValue[whole] - before));
    }
}
