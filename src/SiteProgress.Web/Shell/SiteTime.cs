using NodaTime;
using NodaTime.Text;

namespace SiteProgress.Web.Shell;

/// <summary>Instants as the site's clocks show them; the page names the zone once.</summary>
/// <param name="timeZone">IANA time zone of the site.</param>
public sealed class SiteTime(string timeZone)
{
    private static readonly LocalDateTimePattern ToTheMinute = LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd HH:mm");
    private static readonly LocalTimePattern Clock = LocalTimePattern.CreateWithInvariantCulture("HH:mm");

    /// <summary>The zone.</summary>
    public DateTimeZone Zone { get; } = DateTimeZoneProviders.Tzdb.GetZoneOrNull(timeZone) ?? DateTimeZone.Utc;

    /// <summary>Date and time of day of an instant (UTC) in a time zone, to the minute.</summary>
    public static string Of(DateTime utc, string timeZone)
        => Of(Instant.FromDateTimeUtc(DateTime.SpecifyKind(utc, DateTimeKind.Utc)), timeZone);

    /// <summary>Date and time of day of an instant in a time zone, to the minute.</summary>
    public static string Of(Instant instant, string timeZone) => new SiteTime(timeZone).Minute(instant);

    /// <summary>Day and minute.</summary>
    public string Minute(Instant instant) => ToTheMinute.Format(instant.InZone(Zone).LocalDateTime);

    /// <summary>Day and minutes of a span that may begin or end unknown.</summary>
    public string Span(Instant? start, Instant? end) => (start, end) switch
    {
        ({ } from, { } to) => $"{Minute(from)}\u2013{Clock.Format(to.InZone(Zone).TimeOfDay)}",
        ({ } from, null) => $"{Minute(from)}\u2013?",
        (null, { } to) => $"?\u2013{Minute(to)}",
        _ => "",
    };
}
