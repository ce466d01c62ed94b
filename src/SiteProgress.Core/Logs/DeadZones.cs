namespace SiteProgress.Core.Logs;

/// <summary>Finds where a sand gauge stands at an end of its range: one same reading, its least or its largest, while the casing rises.</summary>
internal static class DeadZones
{
    /// <summary>Readings closer than this are the same, metres.</summary>
    public const double Same = 1e-6;

    private const int LeastSamples = 4;
    private const double LeastRiseMetres = 0.25;

    /// <param name="log">The log.</param>
    /// <param name="charges">Charges as recorded.</param>
    public static (double Low, double High) Mark(CleanLog log, List<Charge> charges)
    {
        if (!log.HasSand) return (double.NaN, double.NaN);
        double low = double.PositiveInfinity, high = double.NegativeInfinity;
        for (int index = 0; index < log.Count; index++)
        {
            double sand = log.Sand[index];
            if (sand < low) low = sand;
            if (sand > high) high = sand;
        }

        return (MarkEnd(log, low, isLow: true, charges) ? low : double.NaN, MarkEnd(log, high, isLow: false, charges) ? high : double.NaN);
    }

    private static bool MarkEnd(CleanLog log, double end, bool isLow, List<Charge> charges)
    {
        List<(int From, int To)> runs = Runs(log, end);

        // A gauge without any noise stands still wherever the sand does; only a charge that does not move it shows the end of its range.
        if (log.SandNoise == 0) runs.RemoveAll(run => isLow || !charges.Exists(charge => run.From < charge.Index && charge.Index < run.To));
        bool beginsThere = isLow && log.SandNoise > 0 && StandsAtBegin(log, end);

        // An emptying casing ends once at the low end of the range; otherwise one run may as well be sand that hangs.
        bool certain = beginsThere || runs.Count >= 2 || (runs.Count == 1 && (!isLow || runs[0].To > 0.9 * log.Count));
        if (!certain) return false;
        for (int index = 0; index < log.Count; index++)
        {
            if (Math.Abs(log.Sand[index] - end) <= Same) log.Flags[index] |= SandFlag.Clamped;
        }

        return true;
    }

    private static bool StandsAtBegin(CleanLog log, double end)
    {
        const int Samples = 8;
        for (int index = 0; index < Samples && index < log.Count; index++)
        {
            if (Math.Abs(log.Sand[index] - end) > Same) return false;
        }

        return true;
    }

    private static List<(int From, int To)> Runs(CleanLog log, double end)
    {
        List<(int From, int To)> runs = [];
        int from = -1;
        for (int index = 0; index <= log.Count; index++)
        {
            bool at = index < log.Count && Math.Abs(log.Sand[index] - end) <= Same;
            if (at && from < 0) from = index;
            if (at || from < 0) continue;
            if (index - from >= LeastSamples && Rise(log, from, index - 1) >= LeastRiseMetres) runs.Add((from, index - 1));
            from = -1;
        }

        return runs;
    }

    private static double Rise(CleanLog log, int from, int to)
    {
        double least = double.PositiveInfinity, rise = 0;
        for (int index = from; index <= to; index++)
        {
            least = Math.Min(least, log.Tip[index]);
            rise = Math.Max(rise, log.Tip[index] - least);
        }

        return rise;
    }
}
