namespace SiteProgress.Core.Logs;

/// <summary>
/// Hang-ups: while sand leaves freely, its level in the casing less all charges stays where it is; in a hang-up it rises with the
/// casing, and stays up until the next re-drive. Means over a fifth of a metre of rise, up to
/// three together, keep noise out.
/// </summary>
internal static class HangUps
{
    private const double BinMetres = 0.2;

    /// <summary>A rest this near the lowest still counts as not risen, metres: the hang-up begins after it.</summary>
    private const double LevelMetres = 0.06;

    /// <summary>Bins on each side that are taken together.</summary>
    private const int Together = 3;

    /// <summary>Below this height the casing counts as empty, metres: nothing is left that could hang.</summary>
    private const double EmptyMetres = 0.4;

    public static void Find(CleanLog log, SandBalance balance, Building building, LogContext context, List<LogEvent> events)
    {
        List<Bin> bins = [];
        for (int place = 0; place < building.Bottoms.Count; place++)
        {
            if (building.TopAfter(place) is not { } top) continue;
            bool pullOut = place == building.Bottoms.Count - 1;
            double stop = pullOut ? Math.Min(top.LevelMetres, context.CutOffLevelMetres ?? double.NegativeInfinity) : top.LevelMetres;
            Collect(log, balance, building.Turns[building.Bottoms[place]].To, top.To, stop, bins);
            if (Largest(bins, log, context.Constants) is not { } found) continue;
            (Bin from, Bin to) = found;
            bool open = !building.BottomLevels.Skip(place + 1).Any(level => level <= from.Level);
            double size = to.Rest - from.Rest;
            events.Add(new LogEvent(
                LogEventKind.HangUp, from.Seconds, to.Seconds, from.Level, to.Level, size, open,
                FormattableString.Invariant($"The casing rose by {to.Level - from.Level:0.00} m and {size:0.00} m of sand rose with it; {(open ? "no later pass went below it." : "a later pass went below it.")}")));
        }

        new StandAccounts(log, balance, building, context.Constants).Find(events);
    }

    private static void Collect(CleanLog log, SandBalance balance, int from, int to, double stopLevel, List<Bin> bins)
    {
        bins.Clear();
        double begin = log.Tip[from];
        double rest = 0, level = 0, seconds = 0;
        int count = 0, bin = 0;
        for (int index = from; index <= to; index++)
        {
            if (log.Tip[index] > stopLevel + 0.1) break;
            int here = (int)((log.Tip[index] - begin) / BinMetres);
            if (here > bin)
            {
                Close();
                bin = here;
            }

            if (log.Flags[index] != SandFlag.Good || log.Sand[index] < EmptyMetres) continue;
            rest += balance.Rest[index];
            level += log.Tip[index];
            seconds += log.Seconds[index];
            count++;
        }

        Close();

        void Close()
        {
            if (count > 0) bins.Add(new Bin(rest / count, level / count, seconds / count, count));
            (rest, level, seconds, count) = (0, 0, 0, 0);
        }
    }

    /// <summary>The largest rise of the rest from up to three bins to up to three later ones, when it is a hang-up.</summary>
    private static (Bin From, Bin To)? Largest(List<Bin> bins, CleanLog log, LogConstants constants)
    {
        (Bin From, Bin To)? best = null;
        double largest = 0, noise = Math.Sqrt((log.SandNoise * log.SandNoise) + (log.TipNoise * log.TipNoise));
        Bin? low = null;
        for (int split = 1; split < bins.Count; split++)
        {
            Bin before = Mean(bins, Math.Max(0, split - Together), split);
            if (low is null || before.Rest <= low.Value.Rest + LevelMetres)
                low = before with { Rest = Math.Min(before.Rest, low?.Rest ?? before.Rest), Level = bins[split - 1].Level, Seconds = bins[split - 1].Seconds };
            Bin after = Mean(bins, split, Math.Min(bins.Count, split + Together));
            double rise = after.Rest - low.Value.Rest;
            double spread = noise * Math.Sqrt((1 / Math.Max(1, low.Value.Count / 1.5)) + (1 / Math.Max(1, after.Count / 1.5)));
            if (rise <= largest || rise < Math.Max(constants.HangUpMetres, 5 * spread)) continue;
            (largest, best) = (rise, (low.Value, after with { Level = bins[split].Level, Seconds = bins[split].Seconds }));
        }

        return best;
    }

    private static Bin Mean(List<Bin> bins, int from, int to)
    {
        double rest = 0;
        int count = 0;
        for (int index = from; index < to; index++)
        {
            rest += bins[index].Rest * bins[index].Count;
            count += bins[index].Count;
        }

        return new Bin(rest / count, 0, 0, count);
    }

    private readonly record struct Bin(double Rest, double Level, double Seconds, int Count);
}
