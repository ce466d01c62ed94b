using NodaTime;
using SiteProgress.Jobs.Sand;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Sand;

/// <summary>The picture of the sand account as a chart option.</summary>
public static class SandOptions
{
    /// <summary>Week by week, all barges together: what the account gives and what the records say, side by side.</summary>
    public static object Weeks(IReadOnlyList<SandPeriodLine> periods)
    {
        ArgumentNullException.ThrowIfNull(periods);
        IGrouping<LocalDate, SandPeriodLine>[] weeks = [.. periods.GroupBy(line => line.FirstDay).OrderBy(week => week.Key)];
        return new
        {
            legend = new { },
            tooltip = new { trigger = "axis" },
            xAxis = new { type = "category", data = weeks.Select(week => ShowDay.InAddress(week.Key.ToDateOnly())).ToArray() },
            yAxis = new { type = "value", name = "m³, loose", decimals = 0, nameGap = 56 },
            series = new[]
            {
                Bars("by deliveries and stocks", "var(--orange)", weeks.Select(week => week.Sum(line => line.Account.ByAccountCubicMetres))),
                Bars("by the records", "var(--blue)", weeks.Select(week => week.Sum(line => line.Account.ByRecordsCubicMetres))),
            },
        };
    }

    private static object Bars(string name, string colour, IEnumerable<double> values)
        => new { type = "bar", name, unit = "m³", decimals = 0, itemStyle = new { color = colour }, data = values.Select(value => Math.Round(value, 1)).ToArray() };
}
