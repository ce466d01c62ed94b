namespace SiteProgress.Core.Logs;

/// <summary>Phases of a log from its turning points.</summary>
internal static class PhaseList
{
    /// <summary>A stand this long is a phase of its own, seconds (common practice, no source).</summary>
    private const double StandSeconds = 8;

    public static List<LogPhase> Of(CleanLog log, Building building, IReadOnlyList<Charge> charges)
    {
        List<LogPhase> phases = [];
        int at = FirstMovement(log);
        AddStand(phases, log, charges, 0, at);
        for (int turn = 0; turn < building.Turns.Count; turn++)
        {
            TurningPoint point = building.Turns[turn];
            if (point.Index <= at && !point.IsTop && turn < building.BaseTurn) continue;
            if (point.From > at) Add(phases, log, Kind(building, turn), at, point.From);
            int to = Math.Max(at, point.To);
            AddStand(phases, log, charges, Math.Max(at, point.From), to);
            at = log.Seconds[to] - log.Seconds[Math.Max(at, point.From)] >= StandSeconds ? to : Math.Max(at, point.From);
        }

        if (at < log.Count - 1) AddStand(phases, log, charges, at, log.Count - 1);
        return phases;
    }

    private static LogPhaseKind Kind(Building building, int turn)
    {
        if (turn <= building.BaseTurn) return LogPhaseKind.Penetration;
        if (!building.Turns[turn].IsTop) return LogPhaseKind.Redrive;
        return turn > building.Bottoms[^1] ? LogPhaseKind.PullOut : LogPhaseKind.Withdrawal;
    }

    private static int FirstMovement(CleanLog log)
    {
        double near = 0.15 + (3 * log.TipNoise);
        int index = 0;
        while (index < log.Count - 1 && Math.Abs(log.Tip[index] - log.Tip[0]) <= near) index++;
        return log.Seconds[index] - log.Seconds[0] >= StandSeconds ? index : 0;
    }

    private static void AddStand(List<LogPhase> phases, CleanLog log, IReadOnlyList<Charge> charges, int from, int to)
    {
        if (log.Seconds[to] - log.Seconds[from] < StandSeconds) return;
        bool charged = charges.Any(charge => charge.Index >= from && charge.Index <= to);
        Add(phases, log, charged ? LogPhaseKind.Charging : LogPhaseKind.Idle, from, to);
    }

    private static void Add(List<LogPhase> phases, CleanLog log, LogPhaseKind kind, int from, int to)
    {
        if (to <= from) return;
        if (phases is [.., var last] && last.Kind == kind)
        {
            phases[^1] = last with { ToSeconds = log.Seconds[to], ToLevelMetres = log.Tip[to] };
            return;
        }

        phases.Add(new LogPhase(kind, log.Seconds[from], log.Seconds[to], log.Tip[from], log.Tip[to]));
    }
}
