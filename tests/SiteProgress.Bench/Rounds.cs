namespace SiteProgress.Bench;

/// <summary>Runs contenders in turn, so that a machine that slows down or speeds up does so for all of them.</summary>
public static class Rounds
{
    /// <summary>Rounds that count.</summary>
    public const int Counted = 5;

    /// <summary>Measures each contender once without counting, so that files and code are warm for all, and then five times in turn.</summary>
    /// <param name="contenders">Names, ours and the peers'.</param>
    /// <param name="measure">Measures one contender once.</param>
    /// <returns>The five results of each contender, in the order they were taken.</returns>
    public static async Task<IReadOnlyDictionary<string, IReadOnlyList<T>>> RunAsync<T>(
        IReadOnlyList<string> contenders, Func<string, Task<T>> measure)
    {
        var results = contenders.ToDictionary(name => name, _ => new List<T>());
        for (var round = 0; round <= Counted; round++)
        {
            foreach (var name in contenders)
            {
                var result = await measure(name);
                if (round > 0) results[name].Add(result);
            }
        }

        return results.ToDictionary(entry => entry.Key, entry => (IReadOnlyList<T>)entry.Value);
    }

    /// <summary>The middle value; the mean of the two middle values where their number is even.</summary>
    /// <exception cref="ArgumentException">There is no value.</exception>
    public static double Median(IEnumerable<double> values)
    {
        var sorted = values.Order().ToList();
        if (sorted.Count == 0) throw new ArgumentException("There is no value to take a median of.", nameof(values));
        return (sorted[(sorted.Count - 1) / 2] + sorted[sorted.Count / 2]) / 2;
    }
}
