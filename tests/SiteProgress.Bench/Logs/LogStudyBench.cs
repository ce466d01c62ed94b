namespace SiteProgress.Bench.Logs;

/// <summary>2,000 generated logs a family, of seeds on which no constant was set, against their truth.</summary>
internal static class LogStudyBench
{
    private const int Piles = 2000;

    /// <summary>Seeds from here on are kept for the report; constants were set on seeds below 100,000.</summary>
    private const int FirstSeed = 500_000;

    public static async Task<IReadOnlyList<Outcome>> RunAsync(TextWriter output)
    {
        var outcomes = new List<Outcome>();
        foreach (var family in DemoGenerator.Logs.LogGauges.Families)
        {
            var study = LogStudy.Run(family, FirstSeed, Piles);
            await output.WriteLineAsync(study.Line(family));
            foreach (var broken in study.Broken.Where(line => !line.Contains("least", StringComparison.Ordinal)).Take(5)) await output.WriteLineAsync("  " + broken);
            outcomes.Add(new($"logs-{family}-cycles-right", study.CyclesRightRatio, 0.99));
            outcomes.Add(new($"logs-{family}-metres-within-5-percent", study.DiametersWithinRatio, 0.95));
            outcomes.Add(new($"logs-{family}-sand-within-1-percent", study.SandWithinRatio, 0.99));
            outcomes.Add(new($"logs-{family}-least-diameter-covered", study.CoveredRatio, 0.93));
            outcomes.Add(new($"logs-{family}-least-diameter-not-overcovered", 1.97 - study.CoveredRatio, 1));
            outcomes.Add(new($"logs-{family}-hang-ups-found", (double)study.HangUpsFound / study.HangUps, 1));
            outcomes.Add(new($"logs-{family}-hang-ups-found-or-said-undecidable", 1 - ((double)study.HangUpsMissed / study.HangUps), 1));
            outcomes.Add(new($"logs-{family}-piles-not-doubted-in-vain", 1 - study.DoubtedInVainRatio, 0.9));
            outcomes.Add(new($"logs-{family}-hang-ups-not-invented", study.Piles / 200.0 / Math.Max(0.5, study.FalseHangUps), 1));
        }

        return outcomes;
    }
}
