namespace SiteProgress.Core.Logs;

/// <summary>Events of the gauges themselves: stuck, at an end of the range, late.</summary>
internal static class GaugeEvents
{
    private const double TipStuckSeconds = 60;

    /// <summary>A gauge that reads nothing below this loses nothing worth a word, metres.</summary>
    private const double ShallowMetres = 0.3;

    public static void Find(CleanLog log, SandBalance balance, Building building, LogConstants constants, List<LogEvent> events)
    {
        if (!log.HasSand) return;
        if (balance.LagSeconds >= constants.NamedLagSeconds)
        {
            events.Add(Whole(LogEventKind.GaugeLag, log, FormattableString.Invariant($"The sand gauge follows {balance.LagSeconds:0.0} s late; heights are taken accordingly.")));
        }

        (double low, double high) = balance.Ends;
        if (low > ShallowMetres) events.Add(Whole(LogEventKind.GaugeDeadZone, log, FormattableString.Invariant($"The sand gauge reads nothing below {low:0.00} m above the tip; there the height is reckoned from the casing's rise.")));
        if (!double.IsNaN(high)) events.Add(Whole(LogEventKind.GaugeDeadZone, log, FormattableString.Invariant($"The sand gauge reads nothing above {high:0.00} m above the tip; there the height is reckoned from the charges.")));
        // After the last sand has left, and in the empty casing, a gauge has nothing to change for.
        foreach ((int from, int to, double rise) in StuckGauge.Find(log, constants, building.LastBottom.To))
        {
            events.Add(new LogEvent(
                LogEventKind.SensorStuck, log.Seconds[from], log.Seconds[to], log.Tip[from], log.Tip[to], rise, false,
                FormattableString.Invariant($"The sand gauge read one same value while the casing rose by {rise:0.0} m.")));
        }

        TipStuck(log, constants, events);
    }

    private static void TipStuck(CleanLog log, LogConstants constants, List<LogEvent> events)
    {
        int since = 0;
        for (int index = 1; index <= log.Count; index++)
        {
            if (index < log.Count && log.Tip[index] == log.Tip[since]) continue;
            if (log.Seconds[index - 1] - log.Seconds[since] >= TipStuckSeconds && log.Sand[since] - log.Sand[index - 1] >= constants.StuckMetres)
            {
                events.Add(new LogEvent(
                    LogEventKind.SensorStuck, log.Seconds[since], log.Seconds[index - 1], log.Tip[since], log.Tip[index - 1],
                    log.Sand[since] - log.Sand[index - 1], false, "The tip read one same value while sand left the casing."));
            }

            since = index;
        }
    }

    private static LogEvent Whole(LogEventKind kind, CleanLog log, string note)
        => new(kind, log.Seconds[0], log.Seconds[log.Count - 1], log.Tip[0], log.Tip[log.Count - 1], null, false, note);
}
