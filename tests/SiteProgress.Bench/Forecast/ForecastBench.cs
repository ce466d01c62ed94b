using System.Diagnostics;
using System.Globalization;
using NodaTime;
using SiteProgress.Core.Forecast;
using SiteProgress.Core.Piles;

namespace SiteProgress.Bench.Forecast;

/// <summary>
/// 10,000 runs with days drawn one by one, which have an exact answer and are what a few lines of NumPy do; and the whole forecast
/// with blocks, doubt, rework and three barges beside them. Times are of the processor, on all cores together.
/// </summary>
internal static class ForecastBench
{
    private const int Runs = 10_000, ToDo = 500;
    private const string Ours = "forecast", NumPy = "NumPy", Whole = "forecast, whole";
    private static readonly LocalDate Last = new(2026, 5, 29);
    private static readonly int[] Counts = [18, 22, 0, 15, 25, 20, 19, 0, 21, 24, 17, 23, 0, 0, 12, 26, 20, 21, 18, 22];
    private static readonly ForecastOptions SingleDays = new(Runs, BlockDays: 1, RampDays: 0, LeastDaysOfMonth: int.MaxValue, DoubtHistory: false);
    private static readonly string[] Barges = ["Tern", "Plover", "Curlew"];
    private static readonly string[] Contenders = [Ours, NumPy, Whole];

    // The draws as small whole numbers, one matrix, one running sum: the quickest plain way found.
    private const string Script = """
        import sys, time, numpy as np
        counts = np.array([int(x) for x in sys.argv[1].split(',')], dtype=np.int32)
        todo, runs = int(sys.argv[2]), int(sys.argv[3])
        days = int(todo / counts.mean() * 1.9)
        rng = np.random.default_rng(20260302)
        best = None
        for _ in range(20):
            begin = time.process_time()
            drawn = counts[rng.integers(0, len(counts), size=(runs, days), dtype=np.int32)]
            finish = (drawn.cumsum(axis=1, dtype=np.int32) >= todo).argmax(axis=1) + 1
            p = np.percentile(finish, [10, 50, 90], method='inverted_cdf')
            took = time.process_time() - begin
            best = took if best is None or took < best else best
        print(best * 1000, *[int(x) for x in p])
        """;

    public static async Task<IReadOnlyList<Outcome>> RunAsync(TextWriter output)
    {
        int[] exact = Exact([0.1, 0.5, 0.9]), mine = [], theirs = [];
        var measured = await Rounds.RunAsync(Contenders, name =>
        {
            if (name == NumPy)
            {
                string[] words = Python();
                theirs = [.. words[1..].Select(word => int.Parse(word, CultureInfo.InvariantCulture))];
                return Task.FromResult(double.Parse(words[0], CultureInfo.InvariantCulture));
            }

            return Task.FromResult(Best(() =>
            {
                FinishForecast made = FinishForecast.Of(name == Ours ? Single() : ThreeBarges(), name == Ours ? SingleDays : new ForecastOptions(Runs))!;
                if (name == Ours) mine = [Days(made.Site.P10), Days(made.Site.P50), Days(made.Site.P90)];
            }));
        });
        foreach (string name in Contenders) await output.WriteLineAsync(Text($"{name,-16}{Rounds.Median(measured[name]),9:0.00} ms of processor time for {Runs} runs"));
        await output.WriteLineAsync(Text($"P10, P50, P90 in days: exact {string.Join(' ', exact)}, ours {string.Join(' ', mine)}, NumPy {string.Join(' ', theirs)}"));
        int off = exact.Zip(mine).Max(pair => Math.Abs(pair.First - pair.Second));
        return
        [
            new("forecast-against-convolution-to-a-day", off == 0 ? 2 : 1.0 / off, 1),
            new("forecast-against-numpy", Rounds.Median(measured[NumPy]) / Rounds.Median(measured[Ours]), 1),
            new("forecast-whole-in-a-second", 1_000 / Rounds.Median(measured[Whole]), 1),
        ];
    }

    /// <summary>Days by which the sum of independent days reaches the work with at least these chances, by convolution.</summary>
    private static int[] Exact(double[] chances)
    {
        double[] at = new double[ToDo + 1];
        at[0] = 1;
        List<double> done = [];
        while (done.Count == 0 || done[^1] < 0.999)
        {
            double[] next = new double[ToDo + 1];
            for (int sum = 0; sum <= ToDo; sum++)
            {
                foreach (int count in Counts) next[Math.Min(ToDo, sum + count)] += at[sum] / Counts.Length;
            }

            at = next;
            done.Add(at[ToDo]);
        }

        return Array.ConvertAll(chances, chance => done.FindIndex(share => share >= chance) + 1);
    }

    private static ForecastInput Single() => new(Last, [new BargeHistory("Tern", Dated(Counts), null)], [new ZoneLeft("A", ToDo, ToDo)], WorkPlan.Empty, default);

    private static ForecastInput ThreeBarges()
    {
        int[] counts = [.. Enumerable.Range(0, 75).Select(day => Counts[day % Counts.Length] / 3)];
        return new ForecastInput(
            Last,
            [.. Barges.Select(name => new BargeHistory(name, Dated(counts), "A"))],
            [new ZoneLeft("A", 400, 888), new ZoneLeft("B", 300, 667), new ZoneLeft("C", 400, 960)],
            WorkPlan.Empty with { RestWeekdays = [IsoDayOfWeek.Sunday] },
            new ReworkHistory(1500, 20),
            Last.PlusDays(40));
    }

    private static DayOutput[] Dated(int[] counts) => [.. counts.Select((count, index) => new DayOutput(Last.PlusDays(index + 1 - counts.Length), count))];

    private static int Days(LocalDate? day) => Period.DaysBetween(Last, day!.Value);

    private static double Best(Action act)
    {
        double best = double.MaxValue;
        for (int round = 0; round < 20; round++)
        {
            // Time of the processor on all cores together: NumPy uses one, and a second core must not decide.
            TimeSpan begin = Environment.CpuUsage.TotalTime;
            act();
            best = Math.Min(best, (Environment.CpuUsage.TotalTime - begin).TotalMilliseconds);
        }

        return best;
    }

    private static string[] Python()
    {
        using Process python = Process.Start(new ProcessStartInfo(
            "/usr/bin/python3", ["-c", Script, string.Join(',', Counts), ToDo.ToString(CultureInfo.InvariantCulture), Runs.ToString(CultureInfo.InvariantCulture)])
        {
            RedirectStandardOutput = true,
        })!;
        string said = python.StandardOutput.ReadToEnd();
        python.WaitForExit();
        return python.ExitCode == 0 ? said.Split([' ', '\n'], StringSplitOptions.RemoveEmptyEntries) : throw new InvalidOperationException("NumPy did not run.");
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
