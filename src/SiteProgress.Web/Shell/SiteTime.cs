using NodaTime;
using NodaTime.Text;

namespace SiteProgress.Web.Shell;

/// <summary>Instants as site time; the zone is named once on the page.</summary>
public static class SiteTime
{
    private static readonly LocalDateTimePattern Pattern = LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd HH:mm");

    /// <summary>Date and time of day of an instant (UTC) in a time zone, to the minute.</summary>
    public static string Of(DateTime utc, string timeZone)
        => Pattern.Format(Instant.FromDateTimeUtc(DateTime.SpecifyKind(utc, DateTimeKind.Utc)).InZone(DateTimeZoneProviders.Tzdb[timeZone]).LocalDateTime);
}
