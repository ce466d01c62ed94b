using System.Globalization;
using System.Text;
using System.Text.Json;
using SiteProgress.DemoGenerator.Work;

namespace SiteProgress.DemoGenerator.Files;

/// <summary>What was planned before the work began: a little faster than it then went.</summary>
public static class WorkPlanFiles
{
    private static readonly DateOnly Begins = new(2026, 3, 2);

    /// <summary>First and last planned day, and piles, by zone.</summary>
    private static readonly (string Zone, DateOnly From, DateOnly To, int Piles)[] Zones =
    [
        ("A", new DateOnly(2026, 3, 3), new DateOnly(2026, 6, 27), 2160),
        ("B", new DateOnly(2026, 3, 10), new DateOnly(2026, 6, 20), 2016),
        ("C", new DateOnly(2026, 3, 24), new DateOnly(2026, 7, 4), 1845),
    ];

    /// <summary>Cumulative piles by the end of each Saturday, linear over the worked days of each zone, the first fortnight at half rate.</summary>
    public static byte[] PlannedProgress()
    {
        var lines = new List<string> { "Day,Zone,Planned piles cumulative" };
        foreach (var (zone, from, to, piles) in Zones)
        {
            var weights = new SortedDictionary<DateOnly, double>();
            for (var day = from; day <= to; day = day.AddDays(1))
                if (!SiteTime.IsRestDay(day)) weights[day] = day.DayNumber - from.DayNumber < 14 ? 0.5 : 1;
            var all = weights.Values.Sum();
            for (var week = Begins.AddDays(5); week < to.AddDays(7); week = week.AddDays(7))
            {
                var by = week < to ? week : to;
                if (by < from) continue;
                var done = weights.Where(day => day.Key <= by).Sum(day => day.Value);
                lines.Add(string.Join(',', SiteTime.Iso(by), zone, Math.Floor((piles * done / all) + 1e-9).ToString(CultureInfo.InvariantCulture)));
            }
        }

        return TextFile.Bytes(lines);
    }

    public static byte[] Plan()
    {
        var plan = new
        {
            Zones = Zones.Select(zone => new { zone.Zone, Begins = SiteTime.Iso(zone.From), Ends = SiteTime.Iso(zone.To), Weight = zone.Zone == "A" ? 1.2 : 1.0 }),
            Barges = new object[]
            {
                new { Barge = "Tern", From = "2026-03-02", Zones = new[] { "A" } },
                new { Barge = "Plover", From = "2026-03-09", Zones = new[] { "C", "B" } },
                new { Barge = "Curlew", From = "2026-03-23", Until = "2026-07-31", Zones = new[] { "B", "C" } },
            },
            RestWeekdays = new[] { "sunday" },
            Holidays = new[] { "2026-04-03", "2026-04-06" },
            Restricted = Array.Empty<object>(),
            ContractFinish = "2026-07-18",
        };
        return Encoding.UTF8.GetBytes(JsonSerializer.Serialize(plan, SiteFiles.Json) + "\n");
    }
}
