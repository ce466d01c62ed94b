namespace SiteProgress.Core.Logs;

/// <summary>Events of the gauges themselves: stuck, at an end of the range, late.</summary>
internal static class GaugeEvents
{
    private const double TipStuckSeconds = 60;

    /// <summary>A gauge that reads nothing below this loses nothing worth a word, metres.</summary>
    private const double ShallowMetres = 0.3;

    public static void Find(CleanLog log, SandBalance balance, LogConstants constants, List<LogEvent> events)
    {
        if (!log.HasSand) return;
        if (balance.LagSeconds >= constants.NamedLagSeconds)
        {
            events.Add(Whole(LogEventKind.GaugeLag, log, FormattableString.Invariant($"The sand gauge follows {balance.LagSeconds:0.0} s late; heights are taken accordingly.")));
        }

        (double low, double high) = balance.Ends;
        if (low > ShallowMetres) events.Add(Whole(LogEventKind.GaugeDeadZone, log, FormattableString.Invariant($"The sand gauge reads nothing below {low:0.00} m above the tip; there the height is reckoned from the casing's rise.")));
        if (!double.IsNaN(high)) events.Add(Whole(LogEventKind.GaugeDeadZone, log, FormattableString.Invariant($"The sand gauge reads nothing above {high:0.00} m above the tip; there the height is reckoned from the charges.")));
        Stuck(log, constants, events);
    }

    private static void Stuck(CleanLog log, LogConstants constants, List<LogEvent> events)
    {
        int sandSince = 0, tipSince = 0;
        for (int index = 1; index <= log.Count; index++)
        {
            if (index == log.Count || Math.Abs(log.Sand[index] - log.Sand[sandSince]) > DeadZones.Same)
            {
                bool clamped = (log.Flags[sandSince] & SandFlag.Clamped) != 0;
                double travel = clamped ? 0 : Travel(log, sandSince, index - 1);
                if (travel >= constants.StuckMetres && log.Sand[sandSince] > 0.4)
                {
                    events.Add(new LogEvent(
                        LogEventKind.SensorStuck, log.Seconds[sandSince], log.Seconds[index - 1], log.Tip[sandSince], log.Tip[index - 1], travel, false,
                        FormattableString.Invariant($"The sand gauge read one same value while the casing rose by {travel:0.0} m.")));
                }

                sandSince = index;
            }

            if (index < log.Count && log.Tip[index] == log.Tip[tipSince]) continue;
            if (log.Seconds[index - 1] - log.Seconds[tipSince] >= TipStuckSeconds && log.Sand[tipSince] - log.Sand[index - 1] >= constants.StuckMetres)
            {
                events.Add(new LogEvent(
                    LogEventKind.SensorStuck, log.Seconds[tipSince], log.Seconds[index - 1], log.Tip[tipSince], log.Tip[index - 1],
                    log.Sand[tipSince] - log.Sand[index - 1], false, "The tip read one same value while sand left the casing."));
            }

            tipSince = index;
        }
    }

    private static double Travel(CleanLog log, int from, int to)
    {
        double up = 0;
        for (int index = from + 1; index <= to; index++) up += Math.Max(0, log.Tip[index] - log.Tip[index - 1]);
        return up;
    }

    private static LogEvent Whole(LogEventKind kind, CleanLog log, string note)
        => new(kind, log.Seconds[0], log.Seconds[log.Count - 1], log.Tip[0], log.Tip[log.Count - 1], null, false, note);
}
