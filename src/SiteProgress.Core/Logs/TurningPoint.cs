namespace SiteProgress.Core.Logs;

/// <summary>A moment at which the casing turns from up to down or back.</summary>
/// <param name="Index">Sample of the extreme.</param>
/// <param name="IsTop">True where it turns downward.</param>
/// <param name="From">First sample of the stand around it.</param>
/// <param name="To">Last sample of the stand.</param>
/// <param name="LevelMetres">Level of the tip there.</param>
/// <param name="SpreadMetres">Standard deviation of that level.</param>
internal readonly record struct TurningPoint(int Index, bool IsTop, int From, int To, double LevelMetres, double SpreadMetres);

/// <summary>
/// Turning points of the tip by hysteresis: a turn counts once the tip has gone back by the smallest stroke, so noise below
/// it makes none. The level is the mean over the stand around the extreme, which noise does not pull outward.
/// </summary>
internal static class TurningPoints
{
    /// <summary>Samples in a row that may lie outside a stand's band.</summary>
    private const int MostOutside = 3;

    public static List<TurningPoint> Of(CleanLog log, LogConstants constants)
    {
        double hysteresis = Math.Max(constants.SmallestStrokeMetres, constants.StrokeToNoiseRatio * log.TipNoise);
        List<TurningPoint> turns = [];
        double[] tip = log.Tip;
        int direction = 0;
        int high = 0, low = 0;
        for (int index = 1; index < log.Count; index++)
        {
            double level = tip[index];
            if (level > tip[high]) high = index;
            if (level < tip[low]) low = index;
            if (direction >= 0 && tip[high] - level >= hysteresis)
            {
                turns.Add(Stand(log, constants, high, true));
                (direction, low) = (-1, index);
            }
            else if (direction <= 0 && level - tip[low] >= hysteresis)
            {
                turns.Add(Stand(log, constants, low, false));
                (direction, high) = (1, index);
            }
        }

        if (direction != 0) turns.Add(Stand(log, constants, direction > 0 ? high : low, direction > 0));
        return turns;
    }

    private static TurningPoint Stand(CleanLog log, LogConstants constants, int extreme, bool isTop)
    {
        // The extreme sample is the farthest of the noise, so the stand is sought around the mean of its neighbourhood, and
        // a few samples outside the band do not end it.
        (int from, int to) = Around(log, extreme, log.Tip[extreme], 0.05 + (4 * log.TipNoise), 0);
        (from, to) = Around(log, extreme, Mean(log, from, to), 0.04 + (3 * log.TipNoise), MostOutside);
        int count = to - from + 1;

        double own = log.TipSpread(count);
        double floor = constants.LevelFloorMetres * (log.TipIsSmooth ? 1 : constants.PromptFloorRatio);
        double spread = Math.Sqrt((own * own) + (floor * floor));
        return new TurningPoint(extreme, isTop, from, to, Mean(log, from, to), spread);
    }

    private static (int From, int To) Around(CleanLog log, int extreme, double level, double band, int mostOutside)
    {
        int from = extreme, to = extreme;
        for (int index = extreme - 1; index >= 0 && from - index <= mostOutside + 1; index--)
        {
            if (Math.Abs(log.Tip[index] - level) <= band) from = index;
        }

        for (int index = extreme + 1; index < log.Count && index - to <= mostOutside + 1; index++)
        {
            if (Math.Abs(log.Tip[index] - level) <= band) to = index;
        }

        return (from, to);
    }

    private static double Mean(CleanLog log, int from, int to)
    {
        double sum = 0;
        for (int index = from; index <= to; index++) sum += log.Tip[index];
        return sum / (to - from + 1);
    }
}
