namespace SiteProgress.Core.Logs;

/// <summary>Charges as the sand gauge sees them: quick rises while the casing does not go down.</summary>
internal static class ChargesByGauge
{
    private const double WindowSeconds = 20;
    private const double LeastRiseMetres = 0.8;
    private const double MostDescentMetres = 0.3;

    /// <summary>Readings taken together before and after.</summary>
    private const int Around = 3;

    /// <summary>All charges of a log that records none.</summary>
    public static List<Charge> Find(CleanLog log, LogContext context)
    {
        List<Charge> found = [];
        if (!log.HasSand) return found;
        int window = Math.Max(1, (int)Math.Round(WindowSeconds / log.SpacingSeconds));
        for (int index = 0; index + window < log.Count; index++)
        {
            if (log.Sand[index + window] - log.Sand[index] < LeastRiseMetres || log.Tip[index] - log.Tip[index + window] > MostDescentMetres) continue;
            int end = index + window;
            while (end + 1 < log.Count && log.Sand[end + 1] >= log.Sand[end]) end++;
            int start = index;
            while (start + 1 < end && log.Sand[start + 1] <= log.Sand[start]) start++;
            double rise = log.Sand[end] - log.Sand[start] + Math.Max(0, log.Tip[end] - log.Tip[start]);
            found.Add(new Charge((start + end) / 2, rise * context.CasingArea));
            index = end;
        }

        return found;
    }

    /// <summary>
    /// Recorded charges against their rise on the gauge, for those during which the casing stood and the gauge could see the
    /// whole rise.
    /// </summary>
    /// <returns>Recorded and seen volume, loose cubic metres; null when there is none to compare.</returns>
    public static (double Recorded, double Seen)? Compare(CleanLog log, SandBalance balance, LogContext context)
    {
        if (!log.HasSand || !balance.ChargesRecorded) return null;
        double recorded = 0, seen = 0;
        int next = 0;
        for (int from = 0; from < log.Count; from++)
        {
            if (!IsPouring(log, from)) continue;
            int to = EndOfPouring(log, balance, from);
            double volume = 0;
            for (; next < balance.Charges.Count && balance.Charges[next].Index <= to; next++) volume += balance.Charges[next].CubicMetres;
            if (Rise(log, from - 1, to) is { } rise)
            {
                recorded += volume;
                seen += rise * context.CasingArea;
            }

            from = to;
        }

        return recorded > 0 ? (recorded, seen) : null;
    }

    private static bool IsPouring(CleanLog log, int index) => (log.Flags[index] & SandFlag.Pouring) != 0;

    /// <summary>Last sample of buckets that follow each other closely, once the gauge has caught up: they are compared together.</summary>
    private static int EndOfPouring(CleanLog log, SandBalance balance, int from)
    {
        const double Lags = 3;
        int to = from;
        for (bool pouring = true; pouring;)
        {
            while (to + 1 < log.Count && IsPouring(log, to + 1)) to++;
            int settled = log.IndexAt(log.Seconds[to] + (Lags * balance.LagSeconds)), again = to + 1;
            while (again < log.Count && again <= settled + Around && !IsPouring(log, again)) again++;
            pouring = again < log.Count && again <= settled + Around;
            to = pouring ? again : settled;
        }

        return to;
    }

    private static double? Rise(CleanLog log, int from, int to)
    {
        if (from < Around || to + Around >= log.Count) return null;
        double before = 0, after = 0;
        for (int index = from - Around; index <= to + Around; index++)
        {
            if ((log.Flags[index] & (SandFlag.Missing | SandFlag.Clamped)) != 0 || Math.Abs(log.Tip[index] - log.Tip[from]) > 0.1 + (3 * log.TipNoise)) return null;
            if (index < from) before += log.Sand[index] / Around;
            if (index > to) after += log.Sand[index] / Around;
        }

        return after - before;
    }
}
