using NodaTime;

namespace SiteProgress.Core.Forecast;

/// <summary>
/// The history laid out for drawing: one row a barge, one column a working day, so that a drawn day brings the weather of all
/// barges together.
/// </summary>
internal sealed class HistoryPool
{
    /// <summary>Marks a day on which a barge was not there yet, or not yet up to its work.</summary>
    public static readonly int NotThere = -1;

    private HistoryPool(LocalDate[] days, int[][] output, int[][] own, double[] laterFactor, bool[] isNew, double rampRatio)
    {
        (Days, Output, Own, LaterFactor, IsNew, RampRatio) = (days, output, own, laterFactor, isNew, rampRatio);
    }

    /// <summary>Working days of the history, in order.</summary>
    public LocalDate[] Days { get; }

    /// <summary>Set-ups by barge and day.</summary>
    public int[][] Output { get; }

    /// <summary>Days of each barge that may be drawn, in order, for when a drawn day has nothing of that barge.</summary>
    public int[][] Own { get; }

    /// <summary>Factor on a barge's output once its ramp-up is over, where all its days so far were ramp-up.</summary>
    public double[] LaterFactor { get; }

    /// <summary>True for a barge without a day of its own; it draws from the others'.</summary>
    public bool[] IsNew { get; }

    /// <summary>Output during ramp-up divided by output after it, on days with any; 1 where no history tells.</summary>
    public double RampRatio { get; }

    public static HistoryPool Of(ForecastInput input, ForecastOptions options)
    {
        // Days on which no barge was up to its work would bring no weather along; they are no days to draw.
        LocalDate[] days = input.Barges.SelectMany(barge => barge.Days.Skip(Skipped(barge, options))).Select(day => day.Day).Distinct().Order().ToArray();
        if (options.LastDaysOnly is { } last && days.Length > last) days = days[^last..];
        Dictionary<LocalDate, int> place = days.Select((day, index) => (day, index)).ToDictionary(one => one.day, one => one.index);
        double ramp = Ramp(input.Barges, options.RampDays);
        int count = input.Barges.Count;
        int[][] output = new int[count][];
        int[][] own = new int[count][];
        double[] later = new double[count];
        for (int barge = 0; barge < count; barge++)
        {
            IReadOnlyList<DayOutput> history = input.Barges[barge].Days;
            int skipped = Skipped(input.Barges[barge], options);
            later[barge] = history.Count > 0 && history.Count <= options.RampDays ? 1 / ramp : 1;
            output[barge] = new int[days.Length];
            Array.Fill(output[barge], NotThere);
            foreach (DayOutput day in history.Skip(skipped))
            {
                if (place.TryGetValue(day.Day, out int index)) output[barge][index] = day.SetUps;
            }

            own[barge] = output[barge].Where(setUps => setUps != NotThere).ToArray();
        }

        int[] all = own.SelectMany(one => one).ToArray();
        bool[] isNew = own.Select(one => one.Length == 0).ToArray();
        for (int barge = 0; barge < count; barge++)
        {
            if (isNew[barge]) own[barge] = all;
        }

        return new HistoryPool(days, output, own, later, isNew, ramp);
    }

    /// <summary>
    /// Output of a day as a share of what the barges there do on the mean: 1 on a mean day. Days on which no barge counts are mean days.
    /// </summary>
    public double[] DayShares()
    {
        double[] means = Own.Select(own => own.Length == 0 ? 0 : own.Average()).ToArray();
        double[] shares = new double[Days.Length];
        for (int day = 0; day < shares.Length; day++)
        {
            double done = 0, usual = 0;
            for (int barge = 0; barge < Output.Length; barge++)
            {
                if (Output[barge][day] == NotThere) continue;
                done += Output[barge][day];
                usual += means[barge];
            }

            shares[day] = usual > 0 ? done / usual : 1;
        }

        return shares;
    }

    /// <summary>Days that may be drawn for a calendar month: its own where there are enough, else all.</summary>
    public int[] DaysOf(int month, int least)
    {
        int[] ofMonth = Enumerable.Range(0, Days.Length).Where(index => Days[index].Month == month).ToArray();
        return ofMonth.Length >= least ? ofMonth : Enumerable.Range(0, Days.Length).ToArray();
    }

    // Leaving the ramp-up out needs as many days after it; else there is nothing better to draw from.
    private static int Skipped(BargeHistory barge, ForecastOptions options) => barge.Days.Count >= 2 * options.RampDays ? options.RampDays : 0;

    private static double Ramp(IEnumerable<BargeHistory> barges, int rampDays)
    {
        List<double> ratios = [];
        foreach (BargeHistory barge in barges.Where(one => rampDays > 0 && one.Days.Count >= 2 * rampDays))
        {
            // Only days with output: weather in the first fortnight must not pass for slowness.
            double[] first = barge.Days.Take(rampDays).Where(day => day.SetUps > 0).Select(day => (double)day.SetUps).ToArray();
            double[] after = barge.Days.Skip(rampDays).Where(day => day.SetUps > 0).Select(day => (double)day.SetUps).ToArray();
            if (first.Length > 2 && after.Length > 2) ratios.Add(first.Average() / after.Average());
        }

        return ratios.Count == 0 ? 1 : Math.Clamp(ratios.Average(), 0.3, 1);
    }
}
