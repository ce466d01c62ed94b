using NodaTime;
using Npgsql;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;
using SiteProgress.Jobs.Sites;
using static SiteProgress.Jobs.Sites.RowReading;

namespace SiteProgress.Jobs.Today;

/// <summary>Reads where the whole site stands.</summary>
internal sealed class SiteTotals(NpgsqlDataSource store, int site, SiteSettings settings, WorkingDays calendar)
{
    public async Task<IReadOnlyList<StateCount>> StatesAsync(CancellationToken cancellation)
        => await store.ReadAsync(
            "select state, count(*)::int from derived.pile where site = $1 group by state order by state",
            row => new StateCount((PileState)row.GetInt16(0), row.GetInt32(1)),
            cancellation,
            Site(site));

    public async Task<IReadOnlyList<ZoneProgress>> ZonesAsync(CancellationToken cancellation)
        => await store.ReadAsync(
            $"""
            with counted as (
                select zone, state not in ({(int)PileState.Outstanding}, {(int)PileState.BuildAgain}) as built, length, design_tip is null as by_least,
                    coalesce(design_top - design_tip, least_length, 0) as design_length
                from derived.pile where site = $1 and state <> {(int)PileState.Cancelled})
            select zone, count(*)::int, (count(*) filter (where built))::int, sum(design_length), coalesce(sum(design_length) filter (where built), 0),
                coalesce(sum(length) filter (where built), 0), (count(*) filter (where by_least))::int
            from counted group by zone order by zone
            """,
            row => new ZoneProgress(
                row.GetString(0),
                settings.FindZone(row.GetString(0))?.Name ?? "",
                row.GetInt32(1),
                row.GetInt32(2),
                row.GetDouble(3),
                row.GetDouble(4),
                row.GetDouble(5),
                row.GetInt32(6)),
            cancellation,
            Site(site));

    public async Task<IReadOnlyList<WaitingCount>> WaitingAsync(CancellationToken cancellation)
        => await store.ReadAsync(
            "select match, count(*)::int from derived.installation where site = $1 and waits_for_decision group by match order by match",
            row => new WaitingCount((MatchOutcome)row.GetInt16(0), row.GetInt32(1)),
            cancellation,
            Site(site));

    public async Task<IReadOnlyList<BargeCheck>> ChecksAsync(CancellationToken cancellation)
    {
        var measured = await store.ReadAsync(
            "select barge, measured_at, difference_east, difference_north from derived.position_check where site = $1",
            row => (Barge: row.GetString(0), At: row.GetDateTime(1), East: row.GetDouble(2), North: row.GetDouble(3)),
            cancellation,
            Site(site));
        var installed = await store.ReadAsync(
            $"""
            select i.barge, count(*) filter (where c.last is null or i.ended_at > c.last)::int, max(i.working_day)
            from derived.installation i
            left join (select barge, max(measured_at) as last from derived.position_check where site = $1 group by barge) c using (barge)
            where i.site = $1 and i.match <> {(int)MatchOutcome.DuplicateRecord} group by i.barge
            """,
            row => (Barge: row.GetString(0), Since: row.GetInt32(1), Last: row.DayOrNull(2)),
            cancellation,
            Site(site));
        return settings.Barges.Select(barge => barge.Name)
            .Union(installed.Select(one => one.Barge)).Order(StringComparer.Ordinal)
            .Select(barge =>
            {
                var ofBarge = measured.Where(one => one.Barge == barge).Select(one => (Day: DayOf(one.At), one.East, one.North)).ToArray();
                DateOnly? last = ofBarge.Select(one => (DateOnly?)one.Day).Max();
                var onLast = ofBarge.Where(one => one.Day == last).ToArray();
                var ofInstalled = installed.FirstOrDefault(one => one.Barge == barge);
                return new BargeCheck(
                    barge,
                    last,
                    onLast.Length,
                    onLast.Length > 0 ? onLast.Average(one => one.East) : null,
                    onLast.Length > 0 ? onLast.Average(one => one.North) : null,
                    ofInstalled.Since,
                    ofInstalled.Last);
            }).ToArray();
    }

    public async Task<(long Sequence, DateTime? LastEnded, DateTime? LastBroughtIn)> AgeAsync(CancellationToken cancellation)
        => (await store.ReadAsync(
            """
            select s.sequence,
                (select max(ended_at) from derived.installation where site = $1),
                (select max(recorded_at) from derived.batch where site = $1 and withdrawn_at is null)
            from derived.site_state s where s.site = $1
            """,
            row => (row.GetInt64(0), row.MomentOrNull(1), row.MomentOrNull(2)),
            cancellation,
            Site(site))).Single();

    private DateOnly DayOf(DateTime utc) => calendar.At(Instant.FromDateTimeUtc(utc)).Day.ToDateOnly();
}
