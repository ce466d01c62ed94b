namespace SiteProgress.Core.Logs;

/// <summary>
/// Hang-ups by the account from one stand of the casing to another. What left it between them is what stood in it and came in by
/// charges, less what stands in it then; it must be what the casing rose, less what re-drives push back. Sand that is still there
/// hung. Such an account also reaches over stretches in which the sand gauge saw nothing: it stood at the upper end of its range, did
/// not read, or did not change. Where it is too wide to tell, a hang-up is said not to be excluded.
/// </summary>
internal sealed class StandAccounts(CleanLog log, SandBalance balance, Building building, LogConstants constants)
{
    /// <summary>Below this height the casing may have emptied on the way: nothing was left that could hang, metres.</summary>
    private const double EmptyMetres = 0.6;

    /// <summary>A stretch in which the casing rises less than this hides nothing worth a word, metres.</summary>
    private const double LeastRiseMetres = 0.3;

    public void Find(List<LogEvent> events)
    {
        List<StandReading> readings = new StandReadings(log, balance, building, IsSeen).Find();
        (double Metres, int Seen) pushedBack = PushedBack(readings);
        for (int next = 1; next < readings.Count; next++)
        {
            if (Look(readings[next - 1], readings[next], pushedBack, events) is { } found) events.Add(found);
        }
    }

    private bool IsBlind(int index) => (log.Flags[index] & SandFlag.Missing) != 0 || IsNearEnd(index);

    private bool IsSeen(int index) => log.Flags[index] == SandFlag.Good && !IsNearEnd(index);

    private bool IsNearEnd(int index) => StandReadings.IsNearEnd(log, balance, index);

    private LogEvent? Look(StandReading before, StandReading after, (double Metres, int Seen) pushedBack, List<LogEvent> events)
    {
        // Down to the base nothing is withdrawn, and a log that ends there has no top to look at.
        if (after.Stand <= 0) return null;
        int firstPlace = Math.Max(0, before.Stand + 1) / 2, lastPlace = (after.Stand - 1) / 2;
        List<int> blind = [];
        double rise = 0;
        for (int place = firstPlace; place <= lastPlace; place++)
        {
            rise += Top(place).LevelMetres - building.BottomLevels[place];
            if (IsBlindWithin(Bottom(place).To, Top(place).From)) blind.Add(place);
        }

        if (rise < LeastRiseMetres) return null;
        bool seen = blind.Count == 0;
        if (seen && !IsPlain(before, after)) return null;
        if (seen) blind.Add(firstPlace);
        int redrives = (after.Stand / 2) - firstPlace;
        double stayed = rise - (redrives * pushedBack.Metres) - (after.LeftAtFirst - before.LeftAtLast), spread = Spread(before, after, redrives, pushedBack.Seen);
        bool hung = stayed >= Math.Max(constants.HangUpMetres, constants.HangUpSpreadRatio * spread);
        if (!hung && (seen || stayed < constants.HangUpToFindMetres - (constants.ExcludedSpreadRatio * spread))) return null;
        // What the readings of the same withdrawals show already is not told twice.
        if (events.Exists(one => one.Kind == LogEventKind.HangUp && one.ToSeconds >= log.Seconds[before.Last] && one.FromSeconds <= log.Seconds[after.First])) return null;
        return Told(blind, seen, hung, rise, stayed, spread);
    }

    /// <summary>True for one withdrawal without a charge, from which sand is left in the casing: nothing but sand that hung can stay over.</summary>
    private bool IsPlain(StandReading before, StandReading after)
    {
        double least = Math.Max(0, double.IsNaN(balance.Ends.Low) ? 0 : balance.Ends.Low) + EmptyMetres + (3 * log.SandNoise);
        return after.Stand == before.Stand + 1 && log.Sand[after.First] > least && !balance.Charges.Any(charge => charge.Index > before.Last && charge.Index <= after.First);
    }

    private LogEvent Told(List<int> places, bool seen, bool hung, double rise, double stayed, double spread)
    {
        int first = Bottom(places[0]).To, last = Top(places[^1]).From;
        double low = places.Min(place => building.BottomLevels[place]), high = places.Max(place => Top(place).LevelMetres);
        bool open = places.Exists(place => !building.BottomLevels.Skip(place + 1).Any(level => level <= building.BottomLevels[place]));
        double upTo = Math.Min(rise, Math.Max(0, stayed) + (constants.ExcludedSpreadRatio * spread));
        string later = open ? "no later pass went below it." : "a later pass went below it.";
        return hung
            ? new LogEvent(
                LogEventKind.HangUp, log.Seconds[first], log.Seconds[last], low, high, stayed, open,
                FormattableString.Invariant($"{(seen ? "Over a whole withdrawal" : "While the sand gauge saw nothing")} the casing rose by {rise:0.00} m, and {stayed:0.00} m of sand that should have left is still in it; {later}"))
            : new LogEvent(
                LogEventKind.HangUpNotExcluded, log.Seconds[first], log.Seconds[last], low, high, upTo, open,
                FormattableString.Invariant($"While the sand gauge saw nothing the casing rose by {rise:0.00} m, and charges and strokes do not exclude a hang-up of up to {upTo:0.00} m between these levels; {later}"));
    }

    private TurningPoint Bottom(int place) => building.Turns[building.Bottoms[place]];

    private TurningPoint Top(int place) => building.TopAfter(place)!.Value;

    private bool IsBlindWithin(int from, int to)
    {
        for (int index = from; index <= to; index++)
        {
            if (IsBlind(index)) return true;
        }

        return false;
    }

    /// <summary>
    /// Standard deviation of the sand that stayed, metres: of the readings, of the charges between them, of what the re-drives pushed
    /// back, each by itself and all by what their mean is not known to.
    /// </summary>
    private double Spread(StandReading before, StandReading after, int redrives, int seen)
    {
        double squared = Math.Pow(log.SandSpread(before.Count), 2) + Math.Pow(log.SandSpread(after.Count), 2) + Math.Pow(before.SpreadMetres, 2) + Math.Pow(after.SpreadMetres, 2)
            + (Math.Pow(constants.PushedBackSpreadMetres, 2) * (redrives + ((double)redrives * redrives / seen))) + (2 * Math.Pow(constants.SandFloorMetres, 2));
        // Buckets are weighed one by one, so their errors do not add up in one direction.
        foreach (Charge charge in balance.Charges)
        {
            if (charge.Index > before.Last && charge.Index <= after.First) squared += Math.Pow(constants.ChargeRatio * charge.CubicMetres / balance.CasingArea, 2);
        }

        return Math.Sqrt(squared);
    }

    /// <summary>What a re-drive of this pile pushes back, metres: the median of those the gauge saw, and how many these are; at least one, that of the usual.</summary>
    private (double Metres, int Seen) PushedBack(List<StandReading> readings)
    {
        List<double> seen = [];
        for (int next = 1; next < readings.Count; next++)
        {
            (StandReading top, StandReading bottom) = (readings[next - 1], readings[next]);
            if (top.Stand % 2 == 1 && bottom.Stand == top.Stand + 1) seen.Add(Math.Max(0, top.LeftAtLast - bottom.LeftAtFirst));
        }

        seen.Sort();
        return seen.Count < 3 ? (constants.PushedBackMetres, 1) : (seen[seen.Count / 2], seen.Count);
    }
}
