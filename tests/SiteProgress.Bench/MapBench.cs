using System.Globalization;
using System.Runtime.CompilerServices;
using Microsoft.Playwright;

namespace SiteProgress.Bench;

/// <summary>
/// First paint of 100,000 piles and worst frame of a drag: our layer against Leaflet's circle markers on its canvas and against leaflet.glify.
/// The same piles, the same view of 1200 by 800 pixels with all of them in it, the same browser; five rounds in turn, medians.
/// </summary>
public static class MapBench
{
    private const int Piles = 100_000, Rounds = 5;
    private const double LongestFrameMilliseconds = 50;
    private const string Ours = "ours", CircleMarkers = "circle-markers", Glify = "glify";
    private static readonly string[] Contenders = [Ours, CircleMarkers, Glify];

    /// <summary>Runs the bench, writes its table and one closing line for each goal, and says whether all goals were met.</summary>
    public static async Task<bool> RunAsync(TextWriter output)
    {
        using var pages = MapBenchPages.Build(SourceFolder());
        await using var browser = await MapBenchBrowser.StartAsync(pages);
        var measured = Contenders.ToDictionary(name => name, _ => new List<MapMeasurement>());
        foreach (var name in Contenders) // once without counting: files and code are then warm for all
            await browser.MeasureAsync(name, Piles);
        for (var round = 0; round < Rounds; round++)
            foreach (var name in Contenders)
                measured[name].Add(await browser.MeasureAsync(name, Piles));

        await WriteTableAsync(output, measured, browser.Version);
        return await WriteGoalsAsync(output, measured);
    }

    private static async Task WriteTableAsync(TextWriter output, Dictionary<string, List<MapMeasurement>> measured, string browser)
    {
        await output.WriteLineAsync(Text($"map: {Piles} piles of 7 px, all in a view of 1200 x 800; Chromium {browser} without a graphics card; median of {Rounds} (least to most)"));
        await output.WriteLineAsync($"{"",-16}{"first paint ms",26}{"worst frame of a drag ms",30}");
        foreach (var name in Contenders)
            await output.WriteLineAsync($"{name,-16}{Range(measured[name], m => m.FirstPaintMilliseconds),26}{Range(measured[name], m => m.WorstFrameMilliseconds),30}");
    }

    private static async Task<bool> WriteGoalsAsync(TextWriter output, Dictionary<string, List<MapMeasurement>> measured)
    {
        double Paint(string name) => Median(measured[name].Select(m => m.FirstPaintMilliseconds));
        double Frame(string name) => Median(measured[name].Select(m => m.WorstFrameMilliseconds));
        (string Name, double Ratio, double Goal)[] goals =
        [
            ("map-first-paint-against-circle-markers", Paint(CircleMarkers) / Paint(Ours), 5),
            ("map-first-paint-against-glify", Paint(Glify) / Paint(Ours), 2.5),
            ("map-drag-against-circle-markers", Frame(CircleMarkers) / Frame(Ours), 5),
            ("map-drag-against-glify", Frame(Glify) / Frame(Ours), 2.5),
            // The worst frame of all rounds, not a median: no frame may be longer.
            ("map-drag-against-50-ms", LongestFrameMilliseconds / measured[Ours].Max(m => m.WorstFrameMilliseconds), 1),
        ];
        foreach (var (name, ratio, goal) in goals)
            await output.WriteLineAsync(Text($"{name} ratio {ratio:0.00} goal {goal:0.##} {(ratio >= goal ? "met" : "short")}"));
        return goals.All(goal => goal.Ratio >= goal.Goal);
    }

    private static string Range(List<MapMeasurement> measured, Func<MapMeasurement, double> part)
    {
        var values = measured.Select(part).Order().ToList();
        return Text($"{Median(values):0.0} ({values[0]:0.0} to {values[^1]:0.0})");
    }

    private static double Median(IEnumerable<double> values)
    {
        var sorted = values.Order().ToList();
        return sorted[sorted.Count / 2];
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private static string SourceFolder([CallerFilePath] string file = "") => Path.GetDirectoryName(file)!;
}
