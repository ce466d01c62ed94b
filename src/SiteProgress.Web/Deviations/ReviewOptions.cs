using SiteProgress.Jobs.Deviations;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Deviations;

/// <summary>The other pictures of a review as chart options. Lengths in millimetres, places in metres on the site grid.</summary>
public static class ReviewOptions
{
    /// <summary>How many judged piles lie how far off.</summary>
    public static object Histogram(DeviationReview review)
    {
        ArgumentNullException.ThrowIfNull(review);
        double bin = review.Histogram.Count > 1 ? review.Histogram[1].FromMetres - review.Histogram[0].FromMetres : 0.01;
        return new
        {
            tooltip = new { trigger = "item" },
            xAxis = new { type = "value", name = "radial deviation [mm]", min = 0, max = Math.Max(review.Histogram.Count, 1) * bin * 1000, decimals = 0 },
            yAxis = new { type = "value", name = "piles", decimals = 0, nameGap = 40, minInterval = 1 },
            series = new[]
            {
                new
                {
                    type = "bar", name = "judged piles", barWidth = "96%", unit = "", decimals = 0, itemStyle = new { color = "var(--blue)" },
                    data = review.Histogram.Select(one => new[] { (one.FromMetres + (bin / 2)) * 1000, one.Piles }).ToArray(),
                    markLine = new { data = review.LimitsMetres.Select(limit => new { name = $"limit {Show.Millimetres(limit)}", xAxis = limit * 1000 }).ToArray(), lineStyle = new { color = "var(--text)", type = "dashed" } },
                },
            },
        };
    }

    /// <summary>Boxes of the radial deviations by casing; each leads to its casing.</summary>
    /// <param name="review">The chosen piles.</param>
    /// <param name="address">Address that chooses a casing of a barge.</param>
    public static object Boxes(DeviationReview review, Func<string, int?, string> address)
    {
        ArgumentNullException.ThrowIfNull(review);
        CasingDeviation[] casings = review.Casings.Where(one => one.Box is not null).ToArray();
        return new
        {
            tooltip = new { trigger = "item" },
            xAxis = new { type = "category", data = casings.Select(one => one.Casing is { } casing ? $"{one.Barge} {casing}" : one.Barge).ToArray(), axisLabel = new { interval = 0, rotate = casings.Length > 6 ? 35 : 0 } },
            yAxis = new { type = "value", name = "radial deviation [mm]", min = 0, decimals = 0, nameGap = 40 },
            series = new[]
            {
                new
                {
                    type = "boxplot", name = "5th percentile, quartiles, median, 95th percentile", unit = "mm", decimals = 0, itemStyle = new { borderColor = "var(--blue)", color = "var(--raised)" },
                    data = casings.Select(one => new { value = Box(one.Box!), address = address(one.Barge, one.Casing) }).ToArray(),
                    markLine = new { data = review.LimitsMetres.Select(limit => new { name = $"limit {Show.Millimetres(limit)}", yAxis = limit * 1000 }).ToArray(), lineStyle = new { color = "var(--text)", type = "dashed" } },
                },
            },
        };
    }

    /// <summary>Height of the charts of all casings one above the other, CSS pixels.</summary>
    public static int TimesHeight(DeviationReview review)
    {
        ArgumentNullException.ThrowIfNull(review);
        return 60 + (Math.Max(1, review.Charts.Count) * RowHeight);
    }

    /// <summary>The working days of the charts over time, in order.</summary>
    public static DateOnly[] DaysOf(DeviationReview review)
    {
        ArgumentNullException.ThrowIfNull(review);
        return review.Charts.SelectMany(chart => chart.Days).Select(day => day.WorkingDay).Distinct().Order().ToArray();
    }

    /// <summary>Every casing over time: weighted means with their control limits, one row a casing, all on one scale.</summary>
    public static object Times(DeviationReview review)
    {
        ArgumentNullException.ThrowIfNull(review);
        CasingChart[] charts = [.. review.Charts];
        double top = Math.Ceiling(1000 * charts.SelectMany(chart => chart.Days.SelectMany(day => new[] { Math.Abs(day.FirstMetres), Math.Abs(day.SecondMetres) }).Append(chart.LimitMetres)).DefaultIfEmpty(0.05).Max() / 10) * 10;
        string[] days = DaysOf(review).Select(ShowDay.InAddress).ToArray();
        return new
        {
            legend = new { data = new[] { "forward (or east)", "starboard (or north)" }, right = 12 },
            axisPointer = new { link = new[] { new { xAxisIndex = "all" } } },
            grid = charts.Select((_, row) => new { left = 112, right = 16, top = 34 + (row * RowHeight), height = RowHeight - 20, outerBoundsMode = "none" }).ToArray(),
            xAxis = charts.Select((_, row) => new { type = "category", gridIndex = row, data = days, axisLabel = new { show = row == charts.Length - 1 }, axisTick = new { show = false } }).ToArray(),
            yAxis = charts.Select((chart, row) => new
            {
                type = "value", gridIndex = row, min = -top, max = top, interval = top, name = $"{chart.Barge} {chart.Casing}", nameLocation = "middle", nameRotate = 0, nameGap = 44, nameTextStyle = new { align = "right" }, decimals = 0, axisLabel = new { fontSize = 10 },
                splitLine = new { show = false },
            }).ToArray(),
            series = charts.SelectMany((chart, row) => new[]
            {
                Line(chart, row, "forward (or east)", "var(--blue)", "solid", day => day.FirstMetres, true),
                Line(chart, row, "starboard (or north)", "var(--vermilion)", "dashed", day => day.SecondMetres, false),
            }).ToArray(),
        };
    }

    /// <summary>Smallest frame around the places of the arrows; x from, x to, y from, y to, metres.</summary>
    public static Box Place(DeviationReview review)
    {
        ArgumentNullException.ThrowIfNull(review);
        IReadOnlyList<VectorArrow> arrows = review.Vectors.Arrows;
        if (arrows.Count == 0) return new Box(0, 1, 0, 1);
        (double left, double right, double low, double high) = (arrows.Min(one => one.X), arrows.Max(one => one.X), arrows.Min(one => one.Y), arrows.Max(one => one.Y));
        double margin = Math.Max(5, 0.03 * Math.Max(right - left, high - low));
        // A strip much longer than wide would leave no room for its axes.
        double more = Math.Max(0, (0.18 * (right - left + (2 * margin))) - (high - low) - (2 * margin)) / 2;
        return new Box(left - margin, right + margin, low - margin - more, high + margin + more);
    }

    /// <summary>Deviations in plan, enlarged.</summary>
    /// <param name="review">The chosen piles.</param>
    /// <param name="site">Code of the site.</param>
    /// <param name="times">How many times too long.</param>
    /// <param name="axes">Names of the axes of the site grid.</param>
    public static object Vectors(DeviationReview review, string site, int times, (string First, string Second) axes)
    {
        Box place = Place(review);
        return new
        {
            grid = ChartScale.Grid,
            tooltip = new { trigger = "item" },
            xAxis = new { type = "value", name = $"{axes.First} [m]", min = Math.Floor(place.FirstFrom), max = Math.Floor(place.FirstFrom) + place.FirstTo - place.FirstFrom, decimals = 0, nameGap = 42, splitLine = new { show = false } },
            yAxis = new { type = "value", name = $"{axes.Second} [m]", min = Math.Floor(place.SecondFrom), max = Math.Floor(place.SecondFrom) + place.SecondTo - place.SecondFrom, decimals = 0, nameGap = 46, splitLine = new { show = false } },
            series = new object[]
            {
                new
                {
                    type = "line", name = "deviation", symbol = "none", silent = true, lineStyle = new { color = "var(--vermilion)", width = 1 }, itemStyle = new { color = "var(--vermilion)" },
                    data = review.Vectors.Arrows.SelectMany(one => new double?[][]
                    {
                        [Math.Round(one.X, 2), Math.Round(one.Y, 2)],
                        [Math.Round(one.X + (times * one.AlongMetres), 2), Math.Round(one.Y + (times * one.AcrossMetres), 2)],
                        [null, null],
                    }).ToArray(),
                },
                new
                {
                    type = "scatter", name = "design position", symbolSize = 3, itemStyle = new { color = "var(--blue)" }, unit = "m", decimals = 2,
                    data = review.Vectors.Arrows.Select(one => one.Number is { } number
                        ? (object)new { name = number, value = new[] { Math.Round(one.X, 3), Math.Round(one.Y, 3) }, address = $"/sites/{site}/piles/{number}" }
                        : new { name = $"{one.Piles} piles", value = new[] { Math.Round(one.X, 2), Math.Round(one.Y, 2) } }).ToArray(),
                },
            },
        };
    }

    private const int RowHeight = 84;

    private static object Line(CasingChart chart, int row, string name, string colour, string dash, Func<CasingChartDay, double> of, bool limits) => new
    {
        type = "line", name, xAxisIndex = row, yAxisIndex = row, symbol = "none", unit = "mm", decimals = 0, lineStyle = new { color = colour, width = 1.5, type = dash }, itemStyle = new { color = colour },
        data = chart.Days.Select(day => new object[] { ShowDay.InAddress(day.WorkingDay), Math.Round(of(day) * 1000, 1) }).ToArray(),
        markLine = limits
            ? new { silent = true, label = new { show = false }, lineStyle = new { color = "var(--text)", type = "dotted" }, data = new[] { new { yAxis = chart.LimitMetres * 1000 }, new { yAxis = -chart.LimitMetres * 1000 } } }
            : null,
    };

    private static double[] Box(RadialBox box)
        => [.. new[] { box.Percentile5, box.LowerQuartile, box.Median, box.UpperQuartile, box.Percentile95 }.Select(value => Math.Round(value * 1000, 1))];
}
