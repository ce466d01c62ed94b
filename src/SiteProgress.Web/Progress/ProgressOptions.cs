using NodaTime;
using SiteProgress.Core.Forecast;
using SiteProgress.Core.Progress;
using SiteProgress.Jobs.Progress;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Progress;

/// <summary>The pictures of progress as chart options. Piles and hours by working day.</summary>
public static class ProgressOptions
{
    private static readonly string[] BargeColours = ["var(--blue)", "var(--orange)", "var(--green)", "var(--vermilion)", "var(--sky)", "var(--grey)"];

    /// <summary>Planned and built piles, cumulative, and from the last day to the forecast's three dates.</summary>
    public static object Curves(ZoneStanding zone, FinishDates? finish, DateOnly? last)
    {
        ArgumentNullException.ThrowIfNull(zone);
        DateOnly[] ends = [.. zone.Planned.TakeLast(1).Select(one => one.Day), .. zone.Built.TakeLast(1).Select(one => one.Day), .. Dates(finish)];
        DateOnly[] begins = [.. zone.Planned.Take(1).Select(one => one.Day), .. zone.Built.Take(1).Select(one => one.Day)];
        DateOnly[] days = begins.Length == 0 ? [] : [.. Enumerable.Range(0, ends.Max().DayNumber - begins.Min().DayNumber + 1).Select(step => begins.Min().AddDays(step))];
        Dictionary<DateOnly, double> planned = zone.Planned.ToDictionary(one => one.Day, one => one.Piles);
        List<object> series =
        [
            Line("planned", "var(--grey)", "dashed", days.Select(day => planned.TryGetValue(day, out double piles) ? Math.Round(piles, 1) : (double?)null)),
            Line("built", "var(--blue)", "solid", Built(zone, days, last)),
        ];
        double built = zone.Built.Count > 0 ? zone.Built[^1].Piles : 0;
        foreach ((string name, LocalDate? day) in new[] { ("forecast P10", finish?.P10), ("forecast P50", finish?.P50), ("forecast P90", finish?.P90) })
        {
            if (day is { } end && last is { } from && end.ToDateOnly() > from)
                series.Add(Line(name, "var(--vermilion)", name.EndsWith("50", StringComparison.Ordinal) ? "solid" : "dotted", Straight(days, from, end.ToDateOnly(), built, zone.PlannedPiles)));
        }

        return new
        {
            legend = new { },
            tooltip = new { trigger = "axis" },
            xAxis = new { type = "category", data = days.Select(ShowDay.InAddress).ToArray() },
            yAxis = new { type = "value", name = "piles", min = 0, decimals = 0, nameGap = 48 },
            series,
        };
    }

    /// <summary>Piles by working day, barges one upon the other.</summary>
    public static object Daily(ProgressView view)
    {
        ArgumentNullException.ThrowIfNull(view);
        DateOnly[] days = Between(view.Days.Select(day => day.Day));
        return new
        {
            legend = new { },
            tooltip = new { trigger = "axis" },
            dataZoom = new object[] { new { type = "inside" } },
            xAxis = new { type = "category", data = days.Select(ShowDay.InAddress).ToArray() },
            yAxis = new { type = "value", name = "piles", decimals = 0, nameGap = 40 },
            series = view.Days.Select(day => day.Barge).Distinct().Order(StringComparer.Ordinal).Select((barge, index) => new
            {
                type = "bar", name = barge, stack = "day", unit = "piles", decimals = 0, itemStyle = new { color = BargeColours[index % BargeColours.Length] },
                data = ByDay(view.Days.Where(day => day.Barge == barge).ToDictionary(day => day.Day, day => day.Piles), days),
            }).ToArray(),
        };
    }

    /// <summary>Hours by kind, one bar a barge.</summary>
    public static object Hours(ProgressView view)
    {
        ArgumentNullException.ThrowIfNull(view);
        string[] colours = ["var(--blue)", "var(--sky)", "var(--green)", "var(--orange)", "var(--vermilion)", "#cc79a7", "#8a6d3b", "var(--black)", "#5b5ea6", "var(--line)", "var(--grey)", "#a0a0a0"];
        TimeKind[] kinds = Enum.GetValues<TimeKind>().Where(kind => view.Hours.Any(barge => barge.ByKind.ContainsKey(kind))).ToArray();
        return new
        {
            legend = new { },
            tooltip = new { trigger = "item" },
            xAxis = new { type = "value", name = "hours", decimals = 0 },
            yAxis = new { type = "category", data = view.Hours.Select(barge => barge.Barge).ToArray(), inverse = true },
            series = kinds.Select(kind => new
            {
                type = "bar", name = ProgressWords.Of(kind), stack = "hours", unit = "h", decimals = 1, itemStyle = new { color = colours[((int)kind - 1) % colours.Length] },
                data = view.Hours.Select(barge => (double)barge.ByKind.GetValueOrDefault(kind)).ToArray(),
            }).ToArray(),
        };
    }

    /// <summary>The finish that the forecast would have named each past week.</summary>
    public static object Past(IReadOnlyList<BackTestWeek> past)
    {
        ArgumentNullException.ThrowIfNull(past);
        return new
        {
            legend = new { },
            tooltip = new { trigger = "axis" },
            xAxis = new { type = "category", data = past.Select(week => ShowDay.InAddress(week.Day.ToDateOnly())).ToArray() },
            yAxis = new { type = "value", name = "set-ups in the next four weeks", decimals = 0, nameGap = 40 },
            series = new[]
            {
                Line("P10 to P90, lower end", "var(--grey)", "dotted", past.Select(week => (double?)week.FewSetUps)),
                Line("P50", "var(--vermilion)", "solid", past.Select(week => (double?)week.MiddleSetUps)),
                Line("P10 to P90, upper end", "var(--grey)", "dotted", past.Select(week => (double?)week.ManySetUps)),
                Line("done", "var(--blue)", "solid", past.Select(week => (double?)week.DoneSetUps), "diamond"),
            },
        };
    }

    private static object Line(string name, string colour, string dash, IEnumerable<double?> data, string symbol = "none") => new
    {
        type = "line", name, symbol, symbolSize = 8, unit = "", decimals = 0, connectNulls = true, lineStyle = new { color = colour, type = dash, width = 2 }, itemStyle = new { color = colour }, data = data.ToArray(),
    };

    private static IEnumerable<double?> Built(ZoneStanding zone, DateOnly[] days, DateOnly? last)
    {
        Dictionary<DateOnly, double> built = zone.Built.ToDictionary(one => one.Day, one => one.Piles);
        double? now = null;
        foreach (DateOnly day in days)
        {
            if (built.TryGetValue(day, out double piles)) now = piles;
            yield return day <= last ? now : null;
        }
    }

    private static IEnumerable<double?> Straight(DateOnly[] days, DateOnly from, DateOnly to, double built, double all)
        => days.Select(day => day < from || day > to ? (double?)null : Math.Round(built + ((all - built) * (day.DayNumber - from.DayNumber) / (to.DayNumber - from.DayNumber)), 1));

    private static IEnumerable<DateOnly> Dates(FinishDates? finish) => new[] { finish?.P10, finish?.P50, finish?.P90 }.OfType<LocalDate>().Select(day => day.ToDateOnly());

    private static DateOnly[] Between(IEnumerable<DateOnly> days)
    {
        DateOnly[] all = days.ToArray();
        return all.Length == 0 ? [] : [.. Enumerable.Range(0, all.Max().DayNumber - all.Min().DayNumber + 1).Select(step => all.Min().AddDays(step))];
    }

    private static int[] ByDay(Dictionary<DateOnly, int> piles, DateOnly[] days) => Array.ConvertAll(days, day => piles.GetValueOrDefault(day));
}

/// <summary>Words of progress as pages write them.</summary>
public static class ProgressWords
{
    /// <summary>A kind of time.</summary>
    public static string Of(TimeKind kind) => kind switch
    {
        TimeKind.Installing => "installing",
        TimeKind.Moving => "moving",
        TimeKind.Anchors => "anchors",
        TimeKind.Sand => "sand",
        TimeKind.Weather => "weather",
        TimeKind.Mechanical => "mechanical",
        TimeKind.Survey => "survey",
        TimeKind.HoldPoint => "hold point",
        TimeKind.Mobilisation => "mobilisation",
        TimeKind.Rest => "rest",
        TimeKind.Waiting => "waiting",
        _ => "other",
    };

    /// <summary>Days late or early, in words.</summary>
    public static string Shift(int? days) => days switch
    {
        null => "no finish within four years",
        0 => "no change",
        > 0 => $"{Show.Count(days.Value)} {(days == 1 ? "day" : "days")} later",
        _ => $"{Show.Count(-days.Value)} {(days == -1 ? "day" : "days")} earlier",
    };
}
