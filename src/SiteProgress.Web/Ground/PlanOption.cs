using SiteProgress.Core.Ground;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Ground;

/// <summary>The piles in plan by their replacement ratio, true to scale.</summary>
internal static class PlanOption
{
    /// <summary>Beyond so many points a class is drawn without links, so that the picture stays of bounded size.</summary>
    private const int MostNamed = 1500;

    /// <summary>The picture and its height over its width; null where no pile has a ratio.</summary>
    public static (object Option, double Ratio)? Of(ReplacementReview review, IReadOnlyDictionary<string, double> design, string site, (string First, string Second) axes)
    {
        PileReplacement[] known = [.. review.Piles.Where(one => one.RatioAround is not null)];
        if (known.Length == 0) return null;
        (double left, double right, double low, double high) = (known.Min(one => one.Pile.At.XMetres), known.Max(one => one.Pile.At.XMetres), known.Min(one => one.Pile.At.YMetres), known.Max(one => one.Pile.At.YMetres));
        double margin = Math.Max(5, 0.03 * Math.Max(right - left, high - low));
        double more = Math.Max(0, (0.18 * (right - left + (2 * margin))) - (high - low) - (2 * margin)) / 2;
        (left, right, low, high) = (Math.Floor(left - margin), Math.Ceiling(right + margin), Math.Floor(low - margin - more), Math.Ceiling(high + margin + more));
        object option = new
        {
            grid = ChartScale.Grid,
            tooltip = new { trigger = "item" },
            xAxis = Axis(axes.First, left, right, 42),
            yAxis = Axis(axes.Second, low, high, 46),
            series = new[]
            {
                Points("as designed or more", "circle", 3, "var(--blue)", known.Where(one => !one.IsWeak && one.RatioAround >= design[one.Pile.Zone]), site),
                Points("less than designed", "emptyCircle", 5, "var(--text)", known.Where(one => !one.IsWeak && one.RatioAround < design[one.Pile.Zone]), site),
                Points("weak", "triangle", 9, "var(--vermilion)", known.Where(one => one.IsWeak), site),
            },
        };
        return (option, (high - low) / (right - left));
    }

    private static object Axis(string name, double from, double to, int gap)
        => new { type = "value", name = $"{name} [m]", min = from, max = to, decimals = 0, nameGap = gap, splitLine = new { show = false } };

    private static object Points(string name, string symbol, int size, string colour, IEnumerable<PileReplacement> piles, string site)
    {
        PileReplacement[] given = [.. piles];
        object data = given.Length <= MostNamed
            ? given.Select(one => new { name = $"{one.Pile.Number}, a_s with neighbours {GroundWords.Ratio(one.RatioAround!.Value)}", value = Place(one), address = $"/sites/{site}/piles/{one.Pile.Number}" }).ToArray()
            : given.Select(Place).ToArray();
        return new { type = "scatter", name, symbol, symbolSize = size, itemStyle = new { color = colour }, unit = "m", decimals = 1, data };
    }

    private static double[] Place(PileReplacement one) => [Math.Round(one.Pile.At.XMetres, 2), Math.Round(one.Pile.At.YMetres, 2)];
}
