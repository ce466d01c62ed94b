using System.Globalization;

namespace SiteProgress.DemoGenerator.Work;

/// <summary>
/// Site time of the demo (Europe/Copenhagen in spring 2026) without a time-zone database: an hour ahead of UTC until
/// 2026-03-29T01:00Z, two hours after it. A working day begins at 06:00 site time.
/// </summary>
public static class SiteTime
{
    public static readonly DateTime FirstMorning = new(2026, 3, 2, 5, 0, 0, DateTimeKind.Utc);

    /// <summary>The morning after the last working day, 2026-05-29.</summary>
    public static readonly DateTime LastMorning = new(2026, 5, 30, 4, 0, 0, DateTimeKind.Utc);

    public static readonly DateTime ClocksChange = new(2026, 3, 29, 1, 0, 0, DateTimeKind.Utc);

    private static readonly DateOnly[] Holidays = [new(2026, 4, 3), new(2026, 4, 6)];

    public static DateTimeOffset ToSite(DateTime utc) =>
        new DateTimeOffset(utc, TimeSpan.Zero).ToOffset(TimeSpan.FromHours(utc < ClocksChange ? 1 : 2));

    public static DateOnly WorkingDayOf(DateTime utc) => DateOnly.FromDateTime(ToSite(utc).DateTime.AddHours(-6));

    public static bool IsRestDay(DateOnly day) => day.DayOfWeek == DayOfWeek.Sunday || Holidays.Contains(day);

    /// <summary>The instant at which the working day begins.</summary>
    public static DateTime BeginOf(DateOnly day)
    {
        var wall = day.ToDateTime(new TimeOnly(6, 0), DateTimeKind.Utc);
        return wall.AddHours(wall.AddHours(-2) < ClocksChange ? -1 : -2);
    }

    /// <summary>The next rest day's beginning, at or after this instant.</summary>
    public static DateTime NextRest(DateTime utc)
    {
        var day = WorkingDayOf(utc);
        while (!IsRestDay(day)) day = day.AddDays(1);
        return BeginOf(day) > utc ? BeginOf(day) : utc;
    }

    public static IEnumerable<DateOnly> Days()
    {
        for (var day = WorkingDayOf(FirstMorning); BeginOf(day) < LastMorning; day = day.AddDays(1)) yield return day;
    }

    public static string Iso(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
