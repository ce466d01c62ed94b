namespace SiteProgress.Core.Logs;

/// <summary>Events of the process: cover, air, valve, soil plug, re-drive, penetration, pull-out.</summary>
internal static class ProcessEvents
{
    public static void Find(PileLog raw, CleanLog log, SandBalance? balance, Building building, LogContext context, double? stopRate, List<LogEvent> events)
    {
        for (int place = 0; place < building.Bottoms.Count; place++)
        {
            if (building.TopAfter(place) is not { } top) continue;
            TurningPoint bottom = building.Turns[building.Bottoms[place]];
            bool pullOut = place == building.Bottoms.Count - 1;
            (int from, int to) = (bottom.To, pullOut ? UpTo(log, bottom.To, top.From, context.CutOffLevelMetres) : top.From);
            int before = events.Count;
            if (balance is not null && log.HasSand) Cover(log, context, from, to, events);
            for (int one = before; one < events.Count; one++)
            {
                double level = events[one].FromLevelMetres;
                events[one] = events[one] with { Open = !building.BottomLevels.Skip(place + 1).Any(bottom => bottom <= level) };
            }

            Air(raw, log, context, from, to, events);
            Valve(raw, log, context, from, to, events);
        }

        Redrives(log, building, context, events);
        if (balance is not null && log.HasSand) SoilPlug(log, balance, building, context, events);
        Levels(log, building, context, stopRate, events);
    }

    private static int UpTo(CleanLog log, int from, int to, double? level)
    {
        int index = from;
        while (index < to && log.Tip[index] <= (level ?? double.NegativeInfinity)) index++;
        return index;
    }

    private static void Cover(CleanLog log, LogContext context, int from, int to, List<LogEvent> events)
    {
        double least = context.Constants.LeastCoverMetres;
        Lasting(log, context, from, to, index => log.Flags[index] == SandFlag.Good && log.Sand[index] < least - log.SandNoise, LogEventKind.SandCoverLow,
            FormattableString.Invariant($"The sand stood less than {least:0.0} m above the tip while the casing rose."), events);
    }

    private static void Air(PileLog raw, CleanLog log, LogContext context, int from, int to, List<LogEvent> events)
    {
        if (!raw.Has(LogChannel.AirPressure) || !raw.Has(LogChannel.WaterLevel)) return;
        ReadOnlyMemory<double> pressure = raw.Of(LogChannel.AirPressure).ToArray();
        ReadOnlyMemory<double> water = raw.Of(LogChannel.WaterLevel).ToArray();
        LogConstants constants = context.Constants;
        Lasting(log, context, from, to, index => pressure.Span[index] < (constants.WaterWeightFactor * (water.Span[index] - log.Tip[index])) - constants.AirPressureShortFactor,
            LogEventKind.AirPressureLow, "The air pressure in the casing was below the water pressure outside at the tip while the casing rose.", events);
    }

    private static void Valve(PileLog raw, CleanLog log, LogContext context, int from, int to, List<LogEvent> events)
    {
        ReadOnlySpan<double> valve = raw.Of(LogChannel.Valve);
        if (valve.Length == 0) return;
        for (int index = from; index < to; index++)
        {
            if (!(valve[index] < 0.5)) continue;
            int end = index;
            while (end < to && valve[end] < 0.5) end++;
            double rise = log.Tip[end] - log.Tip[index];
            if (rise >= context.Constants.ValveClosedMetres)
            {
                events.Add(Event(LogEventKind.ValveClosed, log, index, end, rise, FormattableString.Invariant($"The casing rose by {rise:0.00} m with the valve closed.")));
            }

            index = end;
        }
    }

    private static void Redrives(CleanLog log, Building building, LogContext context, List<LogEvent> events)
    {
        int cycles = building.Bottoms.Count - 1;
        if (cycles < 3) return;
        double[] lengths = Enumerable.Range(0, cycles).Select(place => building.TopAfter(place)!.Value.LevelMetres - building.BottomLevels[place]).ToArray();
        double usual = lengths.Order().ElementAt(cycles / 2);
        for (int place = 0; place < cycles; place++)
        {
            if (lengths[place] <= usual * context.Constants.RedriveMissingRatio) continue;
            TurningPoint bottom = building.Turns[building.Bottoms[place]], top = building.TopAfter(place)!.Value;
            if (top.LevelMetres > context.CutOffLevelMetres + usual) continue;
            events.Add(Event(LogEventKind.RedriveMissing, log, bottom.To, top.From, lengths[place],
                FormattableString.Invariant($"A withdrawal of {lengths[place]:0.00} m where {usual:0.00} m is usual in this pile: a re-drive in between is missing.")));
        }
    }

    private static void SoilPlug(CleanLog log, SandBalance balance, Building building, LogContext context, List<LogEvent> events)
    {
        // Left counts charges in, so a fall of it during penetration is sand, or soil, that came in from below.
        int end = building.Base.From;
        if (end < 10) return;
        int begin = Penetration.Begin(log, building);
        int most = begin;
        double rise = 0;
        int from = 0, to = 0;
        for (int index = begin + 1; index <= end; index++)
        {
            if (log.Flags[index] != SandFlag.Good) continue;
            if (log.Flags[most] != SandFlag.Good || balance.Left[index] > balance.Left[most]) most = index;
            if (balance.Left[most] - balance.Left[index] <= rise) continue;
            (rise, from, to) = (balance.Left[most] - balance.Left[index], most, index);
        }

        if (rise < context.Constants.SoilPlugMetres + (6 * log.SandNoise)) return;
        events.Add(Event(LogEventKind.SoilPlug, log, from, to, rise, FormattableString.Invariant($"What stands in the casing rose by {rise:0.00} m during penetration without a charge: soil came in.")));
    }

    private static void Levels(CleanLog log, Building building, LogContext context, double? stopRate, List<LogEvent> events)
    {
        LogConstants constants = context.Constants;
        TurningPoint end = building.Base, last = building.LastBottom;
        if (context.DesignTipLevelMetres - end.LevelMetres > constants.OverPenetrationMetres)
        {
            double by = context.DesignTipLevelMetres!.Value - end.LevelMetres;
            events.Add(Event(LogEventKind.OverPenetration, log, end.From, end.To, by, FormattableString.Invariant($"The tip went {by:0.00} m below the design tip level.")));
        }

        if (end.LevelMetres - context.DesignTipLevelMetres > constants.RefusalMetres && stopRate < constants.RefusalMetresPerMinute)
        {
            double by = end.LevelMetres - context.DesignTipLevelMetres!.Value;
            events.Add(Event(LogEventKind.Refusal, log, end.From, end.To, by, FormattableString.Invariant($"The casing stopped {by:0.00} m above the design tip level at {stopRate:0.00} m/min.")));
        }

        if (building.TopAfter(building.Bottoms.Count - 1) is not { } top || context.CutOffLevelMetres is not { } cutOff) return;
        double above = last.LevelMetres - cutOff;
        if (above > constants.PullOutAboveTopMetres)
        {
            events.Add(Event(LogEventKind.PullOutAboveTop, log, last.To, top.From, above, FormattableString.Invariant($"The pull-out began {above:0.00} m above the design top level.")));
        }
        else if (-above > constants.PullOutAboveTopMetres)
        {
            events.Add(Event(LogEventKind.PullOutBelowTop, log, last.To, top.From, -above, FormattableString.Invariant($"The pull-out began {-above:0.00} m below the design top level: the sand above was not compacted.")));
        }
    }

    private static void Lasting(
        CleanLog log, LogContext context, int from, int to, Func<int, bool> holds, LogEventKind kind, string note, List<LogEvent> events)
    {
        for (int index = from; index < to; index++)
        {
            if (!holds(index)) continue;
            int end = index;
            while (end < to && holds(end)) end++;
            if (log.Seconds[end] - log.Seconds[index] >= context.Constants.LeastEventSeconds) events.Add(Event(kind, log, index, end, null, note));
            index = end;
        }
    }

    private static LogEvent Event(LogEventKind kind, CleanLog log, int from, int to, double? size, string note)
        => new(kind, log.Seconds[from], log.Seconds[to], log.Tip[from], log.Tip[to], size, false, note);
}
