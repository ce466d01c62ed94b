namespace SiteProgress.Bench;

/// <summary>What <c>./bench</c> does with its words.</summary>
public static class BenchCommand
{
    /// <summary>Runs the named measurements, or all of them, or lists them.</summary>
    /// <param name="words">Names, or <c>--list</c>.</param>
    /// <param name="measurements">What there is to choose from.</param>
    /// <param name="output">Tables and closing lines go here.</param>
    /// <param name="problems">Sentences about wrong words and failed measurements go here.</param>
    /// <returns>0 when every goal was met, 1 when one was not or a measurement failed, 2 when a word is not understood.</returns>
    public static async Task<int> RunAsync(
        IReadOnlyList<string> words, IReadOnlyList<Measurement> measurements, TextWriter output, TextWriter problems)
    {
        if (words.Contains("--list"))
        {
            foreach (var measurement in measurements) await output.WriteLineAsync($"{measurement.Name,-14}{measurement.Summary}");
            return 0;
        }

        foreach (var word in words)
        {
            if (measurements.Any(measurement => measurement.Name == word)) continue;
            await problems.WriteLineAsync($"There is no measurement '{word}'; ./bench --list shows them.");
            return 2;
        }

        var outcomes = new List<Outcome>();
        foreach (var measurement in measurements.Where(measurement => words.Count == 0 || words.Contains(measurement.Name)))
        {
            var results = await measurement.RunAsync(output);
            foreach (var outcome in results) await output.WriteLineAsync(outcome.ClosingLine);
            await output.WriteLineAsync();
            outcomes.AddRange(results);
        }

        return outcomes.All(outcome => outcome.Met) ? 0 : 1;
    }
}
