using System.Globalization;
using NodaTime;
using SiteProgress.Core.Forecast;
using SiteProgress.Core.Piles;

namespace SiteProgress.Bench.Forecast;

/// <summary>
/// How often the true finish of a generated project lies between the P10 and the P90 that the forecast named when a quarter, half
/// and three quarters were done; beside it the naive interval of an average rate with independent days.
/// </summary>
internal static class CoverageBench
{
    private const int Projects = 300;
    private static readonly double[] Fractions = [0.25, 0.5, 0.75];

    /// <summary>Measures every family.</summary>
    /// <returns>For each family that history does not mislead: 1 or more where coverage lies in 75 to 85 % at every fraction.</returns>
    public static async Task<IReadOnlyList<Outcome>> RunAsync(TextWriter output)
    {
        List<Outcome> outcomes = [];
        await output.WriteLineAsync("family            done   covered  by itself  width   before  after | naive covered  width   (by itself: share of its own runs from P10 to P90, which whole days make more than 80 %; width: P10 to P90 in days, the middle; before, after: true finish outside)");
        foreach (Family family in Family.All)
        {
            Span[][] ours = [.. Fractions.Select(_ => new Span[Projects])], naive = [.. Fractions.Select(_ => new Span[Projects])];
            Parallel.For(0, Projects, project =>
            {
                GeneratedProject made = new(family, (project * 7919) + family.Name.Length);
                for (int at = 0; at < Fractions.Length; at++) (ours[at][project], naive[at][project]) = Judge(made, Fractions[at]);
            });
            double worst = 1;
            for (int at = 0; at < Fractions.Length; at++)
            {
                double covered = ours[at].Average(one => one.Covers ? 1.0 : 0);
                worst = Math.Min(worst, Math.Min(covered / 0.75, (1 - covered) / 0.15));
                await output.WriteLineAsync(Text(
                    $"{family.Name,-17}{Fractions[at] * 100,4:0} %{covered * 100,9:0.0}%{ours[at].Average(one => one.Inside) * 100,10:0.0}%{Middle(ours[at]),7:0}{ours[at].Count(one => one.True < one.From),9}{ours[at].Count(one => one.True > one.To),7} |{naive[at].Average(one => one.Covers ? 1.0 : 0) * 100,13:0.0}%{Middle(naive[at]),7:0}"));
            }

            await output.WriteLineAsync("  " + family.What);
            if (family.LateSlower == 1) outcomes.Add(new Outcome($"forecast-coverage-{family.Name}", worst, 1));
        }

        await output.WriteLineAsync("Both ends count as inside and days are whole: what an interval should cover is the share of its own runs in it, not just 80 %.");
        await output.WriteLineAsync("Where history misleads no interval drawn from it can hold: the later half is slower than anything seen before. The back-test on the page shows it as soon as it begins.");
        return outcomes;
    }

    private static (Span Ours, Span Naive) Judge(GeneratedProject made, double fraction)
    {
        int done = 0, asOf = -1, doneAgain = 0;
        while (done - doneAgain < fraction * made.SetUps)
        {
            asOf++;
            foreach ((int barge, int arrival) in made.Arrivals.Index().Select(one => (one.Index, one.Item)))
            {
                if (asOf < arrival) continue;
                done += made.Days[barge][asOf - arrival].SetUps;
                doneAgain += made.Days[barge][asOf - arrival].Again;
            }
        }

        int left = made.SetUps - (done - doneAgain);
        ForecastInput input = Input(made, asOf, left, done, doneAgain);
        FinishForecast forecast = FinishForecast.Of(input, new ForecastOptions(Runs: 1_000))!;
        LocalDate truth = LocalDate.FromDateOnly(made.Finished);
        return (new Span(forecast.Site.P10!.Value, forecast.Site.P90 ?? LocalDate.MaxIsoValue, truth, forecast.Site.InsideRatio ?? 0.9), Naive(made, asOf, left, truth));
    }

    private static ForecastInput Input(GeneratedProject made, int asOf, int left, int done, int again) => new(
        LocalDate.FromDateOnly(GeneratedProject.DayAt(asOf)),
        [.. made.Arrivals.Select((arrival, barge) => new BargeHistory(
            $"barge {barge}",
            [.. Enumerable.Range(arrival, Math.Max(0, asOf - arrival + 1)).Where(day => !GeneratedProject.IsRest(GeneratedProject.DayAt(day)))
                .Select(day => new DayOutput(LocalDate.FromDateOnly(GeneratedProject.DayAt(day)), made.Days[barge][day - arrival].SetUps))],
            null))],
        [new ZoneLeft("all", left, left)],
        WorkPlan.Empty with
        {
            RestWeekdays = [IsoDayOfWeek.Sunday],
            Barges = [.. made.Arrivals.Select((arrival, barge) => new BargePlan($"barge {barge}", LocalDate.FromDateOnly(GeneratedProject.DayAt(arrival)), null, []))],
        },
        new ReworkHistory(done, again));

    /// <summary>The average of all worked days so far, and its interval as if days were independent and normal.</summary>
    private static Span Naive(GeneratedProject made, int asOf, int left, LocalDate truth)
    {
        double[] days = [.. Enumerable.Range(0, asOf + 1).Where(day => !GeneratedProject.IsRest(GeneratedProject.DayAt(day)))
            .Select(day => made.Arrivals.Select((arrival, barge) => day < arrival ? 0 : made.Days[barge][day - arrival].SetUps).Sum(one => (double)one))];
        double mean = days.Average(), variance = days.Sum(day => (day - mean) * (day - mean)) / (days.Length - 1);
        double needed = left / mean, half = 1.2816 * Math.Sqrt(needed * variance) / mean;
        return new Span(Ahead(asOf, needed - half), Ahead(asOf, needed + half), truth, 0.8);
    }

    private static LocalDate Ahead(int asOf, double worked)
    {
        int day = asOf;
        for (double left = worked; left > 0; left--)
        {
            do day++;
            while (GeneratedProject.IsRest(GeneratedProject.DayAt(day)));
        }

        return LocalDate.FromDateOnly(GeneratedProject.DayAt(day));
    }

    private static double Middle(Span[] spans) => Rounds.Median(spans.Select(one => (double)Period.DaysBetween(one.From, one.To)));

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private readonly record struct Span(LocalDate From, LocalDate To, LocalDate True, double Inside)
    {
        public bool Covers => From <= True && True <= To;
    }
}
