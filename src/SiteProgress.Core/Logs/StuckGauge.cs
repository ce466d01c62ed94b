namespace SiteProgress.Core.Logs;

/// <summary>
/// A sand gauge that reads one same value while the casing rises far: it does not measure. Its readings are taken as missing, so
/// that a gauge that stood still is not taken for sand that hung.
/// </summary>
internal static class StuckGauge
{
    /// <summary>Fewest readings: a few alike may be chance where the gauge reads in steps.</summary>
    private const int LeastReadings = 6;

    /// <summary>Below this height nothing is left that could change, metres.</summary>
    private const double EmptyMetres = 0.4;

    /// <summary>Marks what is stuck as missing.</summary>
    public static void Mark(CleanLog log, LogConstants constants)
    {
        foreach ((int from, int to, _) in Find(log, constants, log.Count))
        {
            for (int index = from + 1; index <= to; index++) log.Flags[index] |= SandFlag.Missing;
        }
    }

    /// <summary>The stretches, with what the casing rose in each.</summary>
    public static IEnumerable<(int From, int To, double RiseMetres)> Find(CleanLog log, LogConstants constants, int until)
    {
        // A gauge without any noise reads one same value wherever the sand stands still.
        if (!log.HasSand || log.SandNoise == 0) yield break;
        int since = 0;
        for (int index = 1; index <= until; index++)
        {
            if (index < until && Math.Abs(log.Sand[index] - log.Sand[since]) <= DeadZones.Same) continue;
            bool seen = (log.Flags[since] & SandFlag.Clamped) == 0 && log.Sand[since] > EmptyMetres && index - since >= LeastReadings;
            if (seen && Rise(log, since, index - 1) is var rise && rise >= constants.StuckMetres) yield return (since, index - 1, rise);
            since = index;
        }
    }

    private static double Rise(CleanLog log, int from, int to)
    {
        double up = 0;
        for (int index = from + 1; index <= to; index++) up += Math.Max(0, log.Tip[index] - log.Tip[index - 1]);
        return up;
    }
}
