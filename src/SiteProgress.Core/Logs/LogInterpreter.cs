namespace SiteProgress.Core.Logs;

/// <summary>
/// Reads a log: phases, cycles, sand left in the ground, the final pile metre by metre, and what a person should look at. The
/// same samples and context give the same answer, to the bit, on every machine.
/// </summary>
/// <remarks>
/// Sand left over a cycle is the casing's inner area times the fall of the sand height above the tip over withdrawal and
/// re-drive, plus what was charged meanwhile (mass balance of the method; common practice, no source). The equivalent
/// diameter of a metre is sqrt(4 V C / pi) with V the loose sand left in it.
/// </remarks>
public static class LogInterpreter
{
    private const int LeastSamples = 20;

    /// <summary>Reads a log.</summary>
    /// <param name="raw">The samples.</param>
    /// <param name="context">What it is read against.</param>
    public static LogInterpretation Read(PileLog raw, LogContext context)
    {
        ArgumentNullException.ThrowIfNull(raw);
        ArgumentNullException.ThrowIfNull(context);
        if (raw.Count < LeastSamples) return LogInterpretation.Refused($"The log has only {raw.Count} samples.", raw.Count, 0, []);
        using CleanLog log = CleanLog.Of(raw, context);
        if (!double.IsFinite(log.Tip[0])) return LogInterpretation.Refused("The level of the tip is not known: no value was read, or the water level is missing.", raw.Count, log.SpacingSeconds, log.Events);
        List<TurningPoint> turns = TurningPoints.Of(log, context.Constants);
        if (turns is [{ IsTop: true } first, ..] && first.Index > 0) turns.Insert(0, new TurningPoint(0, false, 0, 0, log.Tip[0], log.TipNoise));
        if (Building.Of(log, turns, context.Constants) is not { } building)
            return LogInterpretation.Refused("The casing never reaches a lowest point and turns: there is no pile in this log.", raw.Count, log.SpacingSeconds, log.Events);

        using SandBalance balance = SandBalance.Of(raw, log, turns, context);
        if (log.HasSand) building.TakeSand(log, balance);
        return Told(raw, log, balance, building, context);
    }

    private static LogInterpretation Told(PileLog raw, CleanLog log, SandBalance balance, Building building, LogContext context)
    {
        double? stopRate = Penetration.StopRate(log, building, context.Constants);
        List<LogEvent> events = log.Events;
        ProcessEvents.Find(raw, log, balance, building, context, stopRate, events);
        if (log.HasSand)
        {
            HangUps.Find(log, balance, building, context, events);
            GaugeEvents.Find(log, balance, building, context.Constants, events);
        }

        events.Sort((one, other) => one.FromSeconds.CompareTo(other.FromSeconds));
        PileFigures? pile = log.HasSand ? PileFigures.Of(log, balance, building, context) : null;
        (double Recorded, double Seen)? compared = ChargesByGauge.Compare(log, balance, context);
        TurningPoint end = building.Base, last = building.LastBottom;
        return new LogInterpretation(
            null,
            raw.Count,
            log.SpacingSeconds,
            building.BottomLevels.Min(),
            last.LevelMetres,
            log.HasSand ? building.SandStoppedLevel : null,
            stopRate,
            (log.Seconds[end.From] - log.Seconds[Penetration.Begin(log, building)]) / 60,
            (log.Seconds[last.To] - log.Seconds[end.From]) / 60,
            Penetration.LargestInclination(raw, log, building),
            log.HasSand ? (building.Left[^1] - building.Left[0]) * context.CasingArea : null,
            balance.ChargesRecorded ? balance.Charges.Sum(charge => charge.CubicMetres) : null,
            compared?.Recorded,
            compared?.Seen,
            pile?.Least,
            events.Where(one => one is { Kind: LogEventKind.HangUp, Open: true } && !(one.FromLevelMetres > context.CutOffLevelMetres)).Max(one => one.SizeMetres) ?? 0,
            PhaseList.Of(log, building, balance.Charges),
            CycleList.Of(log, balance, building, context),
            pile?.Segments ?? [],
            pile?.Metres ?? [],
            events);
    }
}
