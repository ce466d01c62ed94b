namespace SiteProgress.Core.Logs;

/// <summary>
/// Lag of a sand gauge: while the casing rises and sand leaves freely, height and tip add up to a constant; seen late, they add
/// up to one with the tip of so many seconds before. The delay with the least scatter over all withdrawals is the lag.
/// </summary>
internal static class GaugeLag
{
    private const int PointsOfStroke = 14;
    private const double StepSeconds = 1.5;

    /// <summary>A lag is believed where it takes away a fifth of the scatter.</summary>
    private const double ScatterLeftRatio = 0.8;

    public static double Estimate(CleanLog log, List<TurningPoint> turns, IReadOnlyList<Charge> charges, LogConstants constants)
    {
        if (!log.HasSand) return 0;
        List<(int From, int To)> strokes = Strokes(log, turns, charges);
        if (strokes.Count < 2) return 0;
        int steps = (int)(constants.LargestLagSeconds / StepSeconds);
        Span<double> scatter = stackalloc double[steps + 1];
        int best = 0;
        for (int step = 0; step <= steps; step++)
        {
            scatter[step] = Scatter(log, strokes, (int)Math.Round(step * StepSeconds / log.SpacingSeconds));
            if (scatter[step] < scatter[best]) best = step;
        }

        if (best == 0 || scatter[best] > ScatterLeftRatio * scatter[0]) return 0;
        if (best == steps) return best * StepSeconds;
        double curve = scatter[best - 1] - (2 * scatter[best]) + scatter[best + 1];
        double shift = curve > 0 ? 0.5 * (scatter[best - 1] - scatter[best + 1]) / curve : 0;
        return (best + Math.Clamp(shift, -0.5, 0.5)) * StepSeconds;
    }

    private static List<(int From, int To)> Strokes(CleanLog log, List<TurningPoint> turns, IReadOnlyList<Charge> charges)
    {
        List<(int From, int To)> strokes = [];
        for (int turn = 1; turn < turns.Count; turn++)
        {
            TurningPoint bottom = turns[turn - 1], top = turns[turn];
            if (bottom.IsTop || !top.IsTop || top.LevelMetres - bottom.LevelMetres < 1) continue;
            int from = bottom.To, to = top.From;
            bool poured = false;
            for (int index = from; index <= to && !poured; index++) poured = log.Flags[index] != SandFlag.Good;
            if (!poured && to - from >= 4) strokes.Add((from, to));
        }

        return strokes;
    }

    /// <summary>Sum over strokes of the standard deviation of height plus tip so many samples before; the sum of roots lets single strokes with a hang-up weigh little.</summary>
    private static double Scatter(CleanLog log, List<(int From, int To)> strokes, int samplesBefore)
    {
        double total = 0;
        foreach ((int from, int to) in strokes)
        {
            int points = Math.Min(PointsOfStroke, to - from + 1);
            double sum = 0, squares = 0, first = 0;
            for (int point = 0; point < points; point++)
            {
                int index = from + ((to - from) * point / (points - 1));
                double value = log.Sand[index] + log.Tip[Math.Max(0, index - samplesBefore)];
                if (point == 0) first = value;
                value -= first;
                sum += value;
                squares += value * value;
            }

            total += Math.Sqrt(Math.Max(0, (squares / points) - (sum / points * (sum / points))));
        }

        return total;
    }
}
