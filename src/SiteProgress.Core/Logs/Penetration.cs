namespace SiteProgress.Core.Logs;

/// <summary>Figures of the way down, and the inclination of the casing.</summary>
internal static class Penetration
{
    /// <summary>First sample of the way down.</summary>
    public static int Begin(CleanLog log, Building building)
    {
        double near = 0.15 + (3 * log.TipNoise);
        int index = 0;
        while (index < building.Base.From && log.Tip[0] - log.Tip[index] <= near) index++;
        return index;
    }

    /// <summary>Rate over the last part of the way down, metres a minute.</summary>
    public static double? StopRate(CleanLog log, Building building, LogConstants constants)
    {
        int end = building.Base.From, from = end;
        while (from > 0 && log.Tip[from] - log.Tip[end] < constants.StopRateMetres) from--;
        double seconds = log.Seconds[end] - log.Seconds[from];
        return seconds > 0 && from < end ? (log.Tip[from] - log.Tip[end]) / seconds * 60 : null;
    }

    /// <summary>
    /// Largest inclination between base and pull-out, degrees: both axes together, as the largest mean of ten seconds, so that
    /// a jolt is not an inclination.
    /// </summary>
    public static double? LargestInclination(PileLog raw, CleanLog log, Building building)
    {
        ReadOnlySpan<double> first = raw.Of(LogChannel.InclinationX), second = raw.Of(LogChannel.InclinationY);
        if (first.Length == 0 && second.Length == 0) return null;
        int window = Math.Max(1, (int)Math.Round(10 / log.SpacingSeconds));
        double largest = -1, sumX = 0, sumY = 0;
        int count = 0;
        for (int index = building.Base.From; index <= building.LastBottom.To; index++)
        {
            double x = first.Length > 0 ? first[index] : 0, y = second.Length > 0 ? second[index] : 0;
            if (double.IsNaN(x) || double.IsNaN(y)) continue;
            (sumX, sumY, count) = (sumX + x, sumY + y, count + 1);
            if (count < window) continue;
            largest = Math.Max(largest, ((sumX * sumX) + (sumY * sumY)) / (count * (double)count));
            (sumX, sumY, count) = (0, 0, 0);
        }

        return largest < 0 ? null : Math.Sqrt(largest);
    }
}
