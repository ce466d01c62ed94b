using NodaTime;
using Npgsql;
using SiteProgress.Core.Outstanding;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Sites;
using static SiteProgress.Jobs.Sites.RowReading;

namespace SiteProgress.Jobs.Today;

/// <summary>Reads the manager's page: two working days, the whole site, what waits, and how old it all is.</summary>
public sealed class ReadToday(NpgsqlDataSource store, TimeProvider time)
{
    private const int DaysAveraged = 10;

    /// <summary>Reads the page.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="day">
    /// The working day to show. Without one: the current working day while it or the day before has records; else the latest
    /// that has.
    /// </param>
    /// <param name="cancellation">Ends the reading.</param>
    /// <returns>The page; null before the site has settings.</returns>
    [Needs(Right.See)]
    public async Task<TodayView?> RunAsync(Permit permit, DateOnly? day, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        if (await StoredSettings.ReadAsync(store, permit.Site, cancellation) is not { } settings) return null;
        WorkingDays calendar = new(settings);
        DateOnly current = calendar.At(Instant.FromDateTimeOffset(time.GetUtcNow())).Day.ToDateOnly();
        IReadOnlyList<PilesOfDay> piles = await PilesByDayAsync(permit.Site, cancellation);
        DateOnly[] days = piles.Select(one => one.Day.ToDateOnly()).ToArray();
        DateOnly shown = day ?? Shown(days, current);
        DateOnly? previous = Last(days.Where(one => one < shown));
        DateOnly? latest = Last(days);
        DayReports reports = new(store, permit.Site);
        SiteTotals totals = new(store, permit.Site, settings, calendar);
        IReadOnlyList<ZoneProgress> zones = await totals.ZonesAsync(cancellation);
        (long sequence, DateTime? ended, DateTime? broughtIn) = await totals.AgeAsync(cancellation);
        return new TodayView(
            sequence,
            current,
            shown,
            previous,
            days.Where(one => one > shown).Cast<DateOnly?>().FirstOrDefault(),
            latest,
            await reports.OfAsync(previous is { } before ? [before, shown] : [shown], cancellation),
            await totals.StatesAsync(cancellation),
            zones,
            await totals.WaitingAsync(cancellation),
            await totals.ChecksAsync(cancellation),
            Rate(piles, current, zones.Sum(zone => zone.LeftPiles)),
            ended,
            broughtIn,
            settings.TimeZone);
    }

    private static DateOnly Shown(DateOnly[] days, DateOnly current)
        => Last(days) is { } latest && latest < current.AddDays(-1) ? latest : current;

    private static DateOnly? Last(IEnumerable<DateOnly> ascending) => ascending.Cast<DateOnly?>().LastOrDefault();

    private static PlainRate? Rate(IReadOnlyList<PilesOfDay> piles, DateOnly current, int left)
        // The current day is not over; counted in, it would pull the mean down every morning.
        => RateOfLastDays.Of(piles.Where(one => one.Day.ToDateOnly() < current), left, DaysAveraged) is { } rate
            ? new PlainRate(
                rate.Days, rate.FirstDay.ToDateOnly(), rate.LastDay.ToDateOnly(), rate.PilesPerDay, left, rate.DaysNeeded, rate.AtThatRate?.ToDateOnly())
            : null;

    private async Task<IReadOnlyList<PilesOfDay>> PilesByDayAsync(int site, CancellationToken cancellation)
        => await store.ReadAsync(
            "select working_day, sum(piles)::int from derived.day_production where site = $1 group by working_day order by working_day",
            row => new PilesOfDay(LocalDate.FromDateOnly(row.GetFieldValue<DateOnly>(0)), row.GetInt32(1)),
            cancellation,
            Site(site));
}
