using System.Globalization;
using NodaTime;
using NodaTime.Text;

namespace SiteProgress.Exchange.TextTables;

/// <summary>Puts a written time on the time line by the time zone of the site, and refuses what cannot be an instant of work.</summary>
/// <param name="zone">Time zone of the site.</param>
/// <param name="now">The moment of reading.</param>
internal sealed class SiteClock(DateTimeZone zone, Instant now)
{
    private static readonly Instant Earliest = Instant.FromUtc(1990, 1, 1, 0, 0);
    private static readonly LocalDateTimePattern Minutes = LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd HH:mm");
    private static readonly OffsetDateTimePattern WithOffset = OffsetDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd HH:mm:sso<+HH:mm>");

    private readonly Instant _latest = now + Duration.FromDays(1);

    /// <summary>The instant of a written time.</summary>
    /// <param name="time">What the cell says.</param>
    /// <param name="instant">The instant, where there is exactly one.</param>
    /// <returns>Null where there is one, otherwise what was expected.</returns>
    public string? ToInstant(WrittenTime time, out Instant instant)
    {
        instant = default;
        if (time.Offset is { } offset)
        {
            instant = time.Local.WithOffset(offset).ToInstant();
            return Judge(instant);
        }

        var mapping = zone.MapLocal(time.Local);
        switch (mapping.Count)
        {
            case 0:
                return $"a time that exists in {zone.Id}: the clocks there went from "
                    + $"{Minutes.Format(mapping.EarlyInterval.IsoLocalEnd)} to {Minutes.Format(mapping.LateInterval.IsoLocalStart)}";
            case 2:
                return $"an offset, because the clocks in {zone.Id} were put back and the time came twice: write "
                    + $"{WithOffset.Format(mapping.First().ToOffsetDateTime())} or {WithOffset.Format(mapping.Last().ToOffsetDateTime())}";
            default:
                instant = mapping.Single().ToInstant();
                return Judge(instant);
        }
    }

    private string? Judge(Instant instant)
    {
        if (instant < Earliest)
            return "a time after 1990";
        return instant <= _latest
            ? null
            : string.Create(CultureInfo.InvariantCulture, $"a time not later than a day after the file was read ({_latest.InUtc():uuuu-MM-dd HH:mm} UTC)");
    }
}
