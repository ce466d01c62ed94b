using NodaTime;
using Npgsql;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Sites;
using SiteProgress.Jobs.Today;
using static SiteProgress.Jobs.Sites.RowReading;

namespace SiteProgress.Jobs.Progress;

/// <summary>Reads how far the work is: curves against the plan, production, hours, cycle times.</summary>
public sealed class ReadProgress(NpgsqlDataSource store, ReadProduction readProduction)
{
    /// <summary>Reads the page.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="from">First working day of the tables of a period; null for all.</param>
    /// <param name="to">Last working day of them; null for all.</param>
    /// <param name="cancellation">Ends the reading.</param>
    /// <returns>The page; null before the site has settings.</returns>
    [Needs(Right.See)]
    public async Task<ProgressView?> RunAsync(Permit permit, DateOnly? from, DateOnly? to, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        if (await StoredSettings.ReadAsync(store, permit.Site, cancellation) is not { } settings) return null;
        WorkingDays calendar = new(settings);
        WorkPlan plan = await StoredPlan.PlanAsync(store, permit.Site, cancellation);
        IReadOnlyList<PlannedProgress> schedule = await StoredPlan.ScheduleAsync(store, permit.Site, cancellation);
        IReadOnlyList<ReadProduction.Line> all = await readProduction.RunAsync(permit, null, null, cancellation);
        ReadProduction.Line[] period = all.Where(line => (from is null || line.WorkingDay >= from) && (to is null || line.WorkingDay <= to)).ToArray();
        SiteTotals totals = new(store, permit.Site, settings, calendar);
        DateOnly? last = all.Count > 0 ? all[^1].WorkingDay : null;
        IReadOnlyList<AttemptRow> attempts = await AttemptRow.ReadAsync(store, permit.Site, cancellation);
        AttemptRow[] ofPeriod = attempts.Where(one => (from is null || one.Day.ToDateOnly() >= from) && (to is null || one.Day.ToDateOnly() <= to)).ToArray();
        IReadOnlyList<HoursOfDay> hours = await HoursAsync(permit.Site, from, to, calendar, cancellation);
        return new ProgressView(
            (await totals.AgeAsync(cancellation)).Sequence,
            settings.TimeZone,
            plan,
            last,
            from,
            to,
            Standings.Of(await totals.ZonesAsync(cancellation), all, schedule, plan, last),
            all.GroupBy(line => (line.WorkingDay, line.Barge)).Select(day => new DayTotal(
                day.Key.WorkingDay, day.Key.Barge, day.Sum(line => line.Piles), day.Sum(line => line.Metres),
                day.Sum(line => line.SandInCasingCubicMetres), day.Sum(line => line.SandInPileCubicMetres))).ToArray(),
            Groups(period),
            ByBarge(hours),
            ByCause(hours),
            NotAddingUp(hours, period, calendar),
            CycleTimes.Of(ofPeriod.Select(one => one.Recorded).ToArray()),
            new ReworkTotal(
                ofPeriod.Length, ofPeriod.Count(one => one.Recorded.Outcome is Outcome.Interrupted or Outcome.Abandoned), ofPeriod.Count(one => one.IsAgain)));
    }

    private async Task<IReadOnlyList<HoursOfDay>> HoursAsync(int site, DateOnly? from, DateOnly? to, WorkingDays calendar, CancellationToken cancellation)
    {
        List<DiaryEntry> entries = await store.ReadAsync(
            """
            select working_day, barge, activity, cause, borne_by, hours, remark from derived.diary_line
            where site = $1 and ($2 is null or working_day >= $2) and ($3 is null or working_day <= $3) order by working_day, barge, place
            """,
            row => new DiaryEntry(
                LocalDate.FromDateOnly(row.GetFieldValue<DateOnly>(0)), row.GetString(1), row.GetString(2), row.TextOrNull(3), row.TextOrNull(4),
                Math.Round((decimal)row.GetDouble(5), 2), row.TextOrNull(6)),
            cancellation,
            Site(site),
            Day(from),
            Day(to));
        return entries.GroupBy(entry => (entry.WorkingDay, entry.Barge))
            .Select(day => new HoursOfDay(day.Key.WorkingDay, day.Key.Barge, day.ToArray(), HoursOfDay.LengthOf(day.Key.WorkingDay, calendar))).ToArray();
    }

    private static GroupTotal[] Groups(ReadProduction.Line[] lines)
    {
        (string By, Func<ReadProduction.Line, string> Name)[] headings =
        [
            ("barge", line => line.Barge),
            ("casing", line => FormattableString.Invariant($"{line.Barge} {line.Casing}")),
            ("zone", line => line.Zone),
            ("shift", line => line.Shift),
        ];
        return headings.SelectMany(heading => lines.GroupBy(heading.Name).OrderBy(group => group.Key, StringComparer.Ordinal).Select(group => new GroupTotal(
            heading.By, group.Key, group.Select(line => line.WorkingDay).Distinct().Count(), group.Sum(line => line.Attempts), group.Sum(line => line.Piles),
            group.Sum(line => line.Metres), group.Sum(line => line.SandInCasingCubicMetres), group.Sum(line => line.SandInPileCubicMetres),
            group.Sum(line => line.PilesWithFinding)))).ToArray();
    }

    private static BargeHours[] ByBarge(IReadOnlyList<HoursOfDay> hours)
        => hours.GroupBy(day => day.Barge).OrderBy(barge => barge.Key, StringComparer.Ordinal).Select(barge => new BargeHours(
            barge.Key,
            barge.Count(),
            Enum.GetValues<TimeKind>().ToDictionary(kind => kind, kind => barge.Sum(day => day.HoursOf(kind))).Where(one => one.Value > 0).ToDictionary(),
            barge.Sum(day => day.WrittenHours))).ToArray();

    private static CauseHours[] ByCause(IReadOnlyList<HoursOfDay> hours)
        => hours.SelectMany(day => day.Entries)
            // "laying anchors, field A00" and "… A01" are one cause in a sum: what follows the comma names the place.
            .GroupBy(entry => (entry.Barge, Kind: HoursOfDay.KindOf(entry), entry.Activity, Cause: entry.Cause?.Split(',')[0], entry.BorneBy))
            .Select(group => new CauseHours(group.Key.Barge, group.Key.Kind, group.Key.Activity, group.Key.Cause, group.Key.BorneBy, group.Sum(entry => entry.Hours)))
            .OrderBy(one => one.Barge, StringComparer.Ordinal).ThenByDescending(one => one.Hours).ToArray();

    /// <summary>Days whose hours do not add up, and days on which a barge built and nobody wrote hours.</summary>
    private static DayHours[] NotAddingUp(IReadOnlyList<HoursOfDay> hours, ReadProduction.Line[] period, WorkingDays calendar)
    {
        HashSet<(DateOnly, string)> written = [.. hours.Select(day => (day.Day.ToDateOnly(), day.Barge))];
        IEnumerable<DayHours> none = hours.Count == 0 ? [] : period.Select(line => (line.WorkingDay, line.Barge)).Distinct().Where(one => !written.Contains(one))
            .Select(one => new DayHours(one.WorkingDay, one.Barge, 0, HoursOfDay.LengthOf(LocalDate.FromDateOnly(one.WorkingDay), calendar)));
        return hours.Where(day => !day.AddsUp).Select(day => new DayHours(day.Day.ToDateOnly(), day.Barge, day.WrittenHours, day.DayHours))
            .Concat(none).OrderBy(day => day.Day).ThenBy(day => day.Barge, StringComparer.Ordinal).ToArray();
    }
}
