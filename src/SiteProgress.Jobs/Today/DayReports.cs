using Npgsql;
using NpgsqlTypes;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Deviations;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Sites;
using static SiteProgress.Jobs.Sites.RowReading;

namespace SiteProgress.Jobs.Today;

/// <summary>Reads what was done and found on a few working days.</summary>
internal sealed class DayReports(NpgsqlDataSource store, int site)
{
    public async Task<IReadOnlyList<DayReport>> OfAsync(DateOnly[] days, CancellationToken cancellation)
    {
        ILookup<DateOnly, BargeZoneProduction> production = (await ProductionAsync(days, cancellation)).ToLookup(one => one.Day, one => one.Sum);
        ILookup<DateOnly, AttemptNotCompleted> attempts = (await NotCompletedAsync(days, cancellation)).ToLookup(one => one.Day, one => one.Attempt);
        ILookup<DateOnly, PileOfDay> piles = (await PilesAsync(days, cancellation)).ToLookup(one => one.Day, one => one.Pile);
        return days.Select(day => Report(day, production[day], attempts[day], piles[day].ToArray())).ToArray();
    }

    private static DayReport Report(
        DateOnly day, IEnumerable<BargeZoneProduction> production, IEnumerable<AttemptNotCompleted> attempts, PileOfDay[] piles) => new(
        day,
        production.ToArray(),
        attempts.ToArray(),
        piles.SelectMany(pile => pile.Checks).CountBy(check => check).OrderBy(one => one.Key).Select(one => new CheckCount(one.Key, one.Value)).ToArray(),
        piles.Where(pile => pile.Checks.Count > 0).ToArray(),
        piles.FirstOrDefault(pile => pile.RadialMetres is not null));

    private Task<List<(DateOnly Day, BargeZoneProduction Sum)>> ProductionAsync(DateOnly[] days, CancellationToken cancellation)
        => store.ReadAsync(
            $"""
            with production as (
                select working_day, barge, zone, sum(attempts)::int as attempts, sum(piles)::int as piles, sum(metres) as metres,
                    sum(sand_in_casing) as sand_in_casing, sum(sand_in_pile) as sand_in_pile, sum(piles_with_finding)::int as with_finding
                from derived.day_production where site = $1 and working_day = any($2) group by working_day, barge, zone),
            stopped as (
                select i.working_day, i.barge, coalesce(p.zone, '') as zone, count(*)::int as stopped
                from derived.installation i left join derived.pile p on p.site = i.site and p.number = i.adopted
                where i.site = $1 and i.working_day = any($2) and {NotCompleted} group by 1, 2, 3)
            select working_day, barge, zone, attempts, piles, metres, sand_in_casing, sand_in_pile, coalesce(stopped, 0), with_finding
            from production left join stopped using (working_day, barge, zone) order by working_day, barge, zone
            """,
            row => (row.GetFieldValue<DateOnly>(0), new BargeZoneProduction(
                row.GetString(1), row.GetString(2), row.GetInt32(3), row.GetInt32(4), row.GetDouble(5), row.GetDouble(6), row.GetDouble(7), row.GetInt32(8), row.GetInt32(9))),
            cancellation,
            Site(site),
            Days(days));

    private Task<List<(DateOnly Day, AttemptNotCompleted Attempt)>> NotCompletedAsync(DateOnly[] days, CancellationToken cancellation)
        => store.ReadAsync(
            $"""
            select i.working_day, coalesce(p.number, i.recorded_number), p.number is not null, i.barge, i.outcome, p.state, i.remark
            from derived.installation i left join derived.pile p on p.site = i.site and p.number = i.adopted
            where i.site = $1 and i.working_day = any($2) and {NotCompleted} order by i.ended_at, i.sequence
            """,
            row => (row.GetFieldValue<DateOnly>(0), new AttemptNotCompleted(
                row.GetString(1), row.GetBoolean(2), row.GetString(3), (Outcome)row.GetInt16(4), row.IsDBNull(5) ? null : (PileState)row.GetInt16(5), row.TextOrNull(6))),
            cancellation,
            Site(site),
            Days(days));

    /// <summary>Piles completed on the days that have a finding or a judged position, the largest deviation first.</summary>
    private Task<List<(DateOnly Day, PileOfDay Pile)>> PilesAsync(DateOnly[] days, CancellationToken cancellation)
        => store.ReadAsync(
            """
            select working_day, number, coalesce(barge, ''), findings, comparable, radial_limit, along_limit, across_limit,
                deviation_east, deviation_north, deviation_along, deviation_across
            from derived.pile where site = $1 and working_day = any($2) and (findings <> '' or comparable)
            order by case when comparable then deviation_radial end desc nulls last, number
            """,
            row => (row.GetFieldValue<DateOnly>(0), new PileOfDay(
                row.GetString(1),
                row.GetString(2),
                row.GetString(3).Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(Enum.Parse<CheckName>).ToArray(),
                row.GetBoolean(4) ? Held(row)?.Value : null,
                Held(row)?.Limit ?? row.GetDouble(5))),
            cancellation,
            Site(site),
            Days(days));

    /// <summary>The numbers of the limit that decides on the position.</summary>
    private static LimitAnswer? Held(NpgsqlDataReader row)
        => row.NumberOrNull(8) is { } east && row.NumberOrNull(9) is { } north && row.NumberOrNull(10) is { } along && row.NumberOrNull(11) is { } across
            ? new PositionLimit(row.GetDouble(5), row.NumberOrNull(6), row.NumberOrNull(7)).Hold(new PositionDeviation(east, north, along, across)).Answer
            : null;

    private static string NotCompleted
        => $"i.outcome in ({(int)Outcome.Interrupted}, {(int)Outcome.Abandoned}) and i.match <> {(int)MatchOutcome.DuplicateRecord}";

    private static NpgsqlParameter Days(DateOnly[] days) => Value(days, NpgsqlDbType.Array | NpgsqlDbType.Date);
}
