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
    private const int Piles = 100_000;
    private const double LongestFrameMilliseconds = 50;
    private const string Ours = "ours", CircleMarkers = "circle-markers", Glify = "glify";
    private static readonly string[] Contenders = [Ours, CircleMarkers, Glify];

    /// <summary>Runs the bench, writes its table, and gives what came out against each goal.</summary>
    public static async Task<IReadOnlyList<Outcome>> RunAsync(TextWriter output)
    {
        using var pages = MapBenchPages.Build(SourceFolder());
        await using var browser = await MapBenchBrowser.StartAsync(pages);
        var measured = await Rounds.RunAsync(Contenders, name => browser.MeasureAsync(name, Piles));
        await WriteTableAsync(output, measured, browser.Version);
        return Goals(measured);
    }

    private static async Task WriteTableAsync(TextWriter output, IReadOnlyDictionary<string, IReadOnlyList<MapMeasurement>> measured, string browser)
    {
        await output.WriteLineAsync(Text($"map: {Piles} piles of 7 px, all in a view of 1200 x 800; Chromium {browser} without a graphics card; median of {Rounds.Counted} (least to most)"));
        await output.WriteLineAsync($"{"",-16}{"first paint ms",26}{"worst frame of a drag ms",30}");
        foreach (var name in Contenders)
            await output.WriteLineAsync($"{name,-16}{Range(measured[name], m => m.FirstPaintMilliseconds),26}{Range(measured[name], m => m.WorstFrameMilliseconds),30}");
    }

    private static IReadOnlyList<Outcome> Goals(IReadOnlyDictionary<string, IReadOnlyList<MapMeasurement>> measured)
    {
        double Paint(string name) => Rounds.Median(measured[name].Select(m => m.FirstPaintMilliseconds));
        double Frame(string name) => Rounds.Median(measured[name].Select(m => m.WorstFrameMilliseconds));
        return
        [
            new("map-first-paint-against-circle-markers", Paint(CircleMarkers) / Paint(Ours), 5),
            new("map-first-paint-against-glify", Paint(Glify) / Paint(Ours), 2.5),
            new("map-drag-against-circle-markers", Frame(CircleMarkers) / Frame(Ours), 5),
            new("map-drag-against-glify", Frame(Glify) / Frame(Ours), 2.5),
            // The worst frame of all rounds, not a median: no frame may be longer.
            new("map-drag-against-50-ms", LongestFrameMilliseconds / measured[Ours].Max(m => m.WorstFrameMilliseconds), 1),
        ];
    }

    private static string Range(IReadOnlyList<MapMeasurement> measured, Func<MapMeasurement, double> part)
    {
        var values = measured.Select(part).Order().ToList();
        return Text($"{Rounds.Median(values):0.0} ({values[0]:0.0} to {values[^1]:0.0})");
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private static string SourceFolder([CallerFilePath] string file = "") => Path.GetDirectoryName(file)!;
}
