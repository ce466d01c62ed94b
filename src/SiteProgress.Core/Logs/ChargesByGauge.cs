namespace SiteProgress.Core.Logs;

/// <summary>Charges as the sand gauge sees them: quick rises while the casing does not go down.</summary>
internal static class ChargesByGauge
{
    private const double WindowSeconds = 20;
    private const double LeastRiseMetres = 0.8;
    private const double MostDescentMetres = 0.3;

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
        LogConstants constants = context.Constants;
        double settle = constants.PourAfterSeconds + (3 * balance.LagSeconds);
        double recorded = 0, seen = 0;
        for (int first = 0; first < balance.Charges.Count;)
        {
            // Buckets that follow each other closely are compared together.
            int last = first;
            double volume = balance.Charges[first].CubicMetres;
            while (last + 1 < balance.Charges.Count
                && log.Seconds[balance.Charges[last + 1].Index] - log.Seconds[balance.Charges[last].Index] < settle + constants.PourBeforeSeconds)
            {
                volume += balance.Charges[++last].CubicMetres;
            }

            int from = log.IndexAt(log.Seconds[balance.Charges[first].Index] - constants.PourBeforeSeconds) - 1;
            int to = log.IndexAt(log.Seconds[balance.Charges[last].Index] + settle);
            if (Rise(log, from, to) is { } rise)
            {
                recorded += volume;
                seen += rise * context.CasingArea;
            }

            first = last + 1;
        }

        return recorded > 0 ? (recorded, seen) : null;
    }

    private static double? Rise(CleanLog log, int from, int to)
    {
        const int Around = 3;
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
