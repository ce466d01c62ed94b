using System.Globalization;

namespace SiteProgress.Web.Shell;

/// <summary>Working days as people read them and as addresses hold them.</summary>
public static class ShowDay
{
    /// <summary>Day of the week and date: Fri 2026-05-29.</summary>
    public static string WithWeekday(DateOnly day) => day.ToString("ddd yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>The date: 2026-05-29.</summary>
    public static string InAddress(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>The day an address holds; null when there is none or it cannot be read.</summary>
    public static DateOnly? FromAddress(string? text)
        => DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day) ? day : null;
}
