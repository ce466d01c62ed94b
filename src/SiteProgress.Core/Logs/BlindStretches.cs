namespace SiteProgress.Core.Logs;

/// <summary>
/// Hang-ups behind stretches in which the sand gauge saw nothing: it stood at the upper end of its range, did not read, or did not
/// change. What left the casing meanwhile is what stood in it before and came in by charges, less what stands in it after; it
/// must be what the casing rose, less what re-drives push back. Sand that is still there hung, somewhere in the stretch.
/// </summary>
internal sealed class BlindStretches(CleanLog log, SandBalance balance, Building building, LogConstants constants)
{
    /// <summary>Readings that are taken together before and after a stretch.</summary>
    private const int Around = 4;

    /// <summary>A stretch in which the casing rises less than this hides nothing worth a word, metres.</summary>
    private const double LeastRiseMetres = 0.3;

    /// <summary>Spread of what a re-drive pushes back into the casing, metres, as a standard deviation (set on generated logs).</summary>
    private const double PushedBackSpread = 0.09;

    /// <summary>Lags after which a gauge has caught up.</summary>
    private const double Lags = 2.5;

    /// <summary>Standard deviations by which sand must be too much.</summary>
    private const double Deviations = 4;

    public void Find(List<LogEvent> events)
    {
        double pushedBack = PushedBack();
        int end = building.LastBottom.To;
        for (int index = building.Base.From; index < end; index++)
        {
            if (!IsBlind(index)) continue;
            int from = index;
            while (index < end && !IsSeen(index)) index++;
            if (Look(from, index, pushedBack, events) is { } found) events.Add(found);
        }
    }

    private bool IsBlind(int index) => (log.Flags[index] & SandFlag.Missing) != 0 || IsNearEnd(index);

    private bool IsSeen(int index) => log.Flags[index] == SandFlag.Good && !IsNearEnd(index);

    /// <summary>Noise carries a reading near the end of the range to and fro across it.</summary>
    private bool IsNearEnd(int index) => log.Sand[index] >= balance.Ends.High - DeadZones.Same - (3 * log.SandNoise);

    private LogEvent? Look(int from, int to, double pushedBack, List<LogEvent> events)
    {
        if (Readings(from - 1, -1) is not { } before || After(to) is not { } after || after.Index > building.LastBottom.To) return null;
        (double rise, int redrives, int place) = Between(before.Tip, before.Index, after.Tip, after.Index);
        if (rise < LeastRiseMetres) return null;
        double stayed = rise - (redrives * pushedBack) - (after.Left - before.Left);
        double charged = balance.Charges.Where(charge => charge.Index > before.Index && charge.Index <= after.Index).Sum(charge => charge.CubicMetres) / balance.CasingArea;
        double spread = Math.Sqrt((log.SandNoise * log.SandNoise / 2) + (redrives * PushedBackSpread * PushedBackSpread) + Math.Pow(constants.ChargeRatio * charged, 2) + Math.Pow(constants.SandFloorMetres, 2));
        if (stayed < Math.Max(constants.HangUpMetres, Deviations * spread)) return null;
        TurningPoint bottom = building.Turns[building.Bottoms[place]], top = building.TopAfter(place)!.Value;
        // What the readings of the same withdrawal show already is not told twice.
        if (events.Exists(one => one.Kind == LogEventKind.HangUp && one.ToSeconds >= log.Seconds[bottom.From] && one.FromSeconds <= log.Seconds[top.To])) return null;
        int first = Math.Max(bottom.To, from), last = Math.Max(first, Math.Min(top.From, to));
        bool open = !building.BottomLevels.Skip(place + 1).Any(level => level <= log.Tip[first]);
        return new LogEvent(
            LogEventKind.HangUp, log.Seconds[first], log.Seconds[last], log.Tip[first], log.Tip[last], stayed, open,
            FormattableString.Invariant($"While the sand gauge saw nothing the casing rose by {rise:0.00} m, and {stayed:0.00} m of sand that should have left is still in it; {(open ? "no later pass went below it." : "a later pass went below it.")}"));
    }

    /// <summary>True where a reading is late enough for the gauge to have caught up with a turn of the casing.</summary>
    private bool CaughtUp(TurningPoint turn, int reading) => log.Seconds[reading] - log.Seconds[turn.From] > Lags * balance.LagSeconds && turn.From < reading;

    /// <summary>First readings after a stretch, once the gauge has caught up with the last charge.</summary>
    private Reading? After(int to)
    {
        foreach (Charge charge in balance.Charges)
        {
            double settled = log.Seconds[charge.Index] + constants.PourAfterSeconds + (Lags * balance.LagSeconds);
            if (charge.Index <= to && log.Seconds[to] < settled) to = Math.Max(to, log.IndexAt(settled));
        }

        return Readings(to, 1);
    }

    private Reading? Readings(int index, int step)
    {
        // Readings far apart belong to different times: the count begins anew at the farther one.
        const double NearSeconds = 15;
        double left = 0, tip = 0;
        int counted = 0, last = index;
        for (; index >= 0 && index < log.Count && counted < Around; index += step)
        {
            if (!IsSeen(index)) continue;
            if (counted > 0 && Math.Abs(log.Seconds[index] - log.Seconds[last]) > NearSeconds) (left, tip, counted) = (0, 0, 0);
            left += balance.Left[index];
            tip += balance.Left[index] + balance.Rest[index];
            counted++;
            last = index;
        }

        return counted < Around ? null : new Reading(last, left / Around, tip / Around);
    }

    /// <summary>What the casing rose between two readings, the re-drives between them, and the withdrawal with the longest rise.</summary>
    private (double Rise, int Redrives, int Place) Between(double tipBefore, int before, double tipAfter, int after)
    {
        double rise = 0, longest = -1;
        int redrives = 0, where = 0;
        for (int place = 0; place < building.Bottoms.Count; place++)
        {
            if (building.TopAfter(place) is not { } top) continue;
            TurningPoint bottom = building.Turns[building.Bottoms[place]];
            if (place > 0 && CaughtUp(building.Turns[building.Bottoms[place] - 1], after) && bottom.From > before) redrives++;
            if (top.From < before || bottom.To > after) continue;
            double part = Math.Max(0, (CaughtUp(top, after) ? top.LevelMetres : Math.Min(top.LevelMetres, tipAfter)) - (bottom.To > before ? bottom.LevelMetres : tipBefore));
            rise += part;
            if (part > longest) (longest, where) = (part, place);
        }

        return (rise, redrives, where);
    }

    /// <summary>What a re-drive of this pile pushes back, metres: the median of those the gauge saw.</summary>
    private double PushedBack()
    {
        // A gauge that follows late shows too little of it.
        const double Usual = 0.15, LateSeconds = 3;
        if (balance.LagSeconds > LateSeconds) return Usual;
        List<double> seen = [];
        for (int place = 0; place + 1 < building.Bottoms.Count; place++)
        {
            TurningPoint top = building.TopAfter(place)!.Value, bottom = building.Turns[building.Bottoms[place + 1]];
            if (log.Flags[top.Index] == SandFlag.Good && log.Flags[bottom.Index] == SandFlag.Good) seen.Add(Math.Max(0, balance.At(top).Metres - building.Left[place + 1]));
        }

        seen.Sort();
        return seen.Count < 3 ? Usual : seen[seen.Count / 2];
    }

    private readonly record struct Reading(int Index, double Left, double Tip);
}
