using System.Globalization;
using NodaTime;

namespace SiteProgress.Web.Shell;

/// <summary>Working days as people read them and as addresses hold them.</summary>
public static class ShowDay
{
    /// <summary>Day of the week and date: Fri 2026-05-29.</summary>
    public static string WithWeekday(DateOnly day) => day.ToString("ddd yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>The date: 2026-05-29.</summary>
    public static string InAddress(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>
    /// The day an address holds; null when there is none or it cannot be read. Years beyond 1900 to 2199 are no working days of
    /// any site, and the days beside the first and the last of the calendar cannot be reckoned.
    /// </summary>
    public static DateOnly? FromAddress(string? text)
        => DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day) && day.Year is >= 1900 and < 2200 ? day : null;

    /// <summary>The same, as the core counts days.</summary>
    public static LocalDate? LocalFromAddress(string? text) => FromAddress(text) is { } day ? LocalDate.FromDateOnly(day) : null;
}
