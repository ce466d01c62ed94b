using NodaTime;
using Npgsql;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Sites;
using static SiteProgress.Jobs.Sites.RowReading;

namespace SiteProgress.Jobs.Progress;

/// <summary>An attempt, as far as progress asks.</summary>
/// <param name="Day">Working day of its end.</param>
/// <param name="Recorded">Barge, casing, set-up and times.</param>
/// <param name="Zone">Zone of its pile; null where none is adopted.</param>
/// <param name="IsAgain">True where an earlier attempt was made at the same pile.</param>
internal sealed record AttemptRow(LocalDate Day, Installation Recorded, string? Zone, bool IsAgain)
{
    /// <summary>All attempts that ended, trials and repeats of a record left out, in the order in which they ended.</summary>
    public static async Task<IReadOnlyList<AttemptRow>> ReadAsync(NpgsqlDataSource store, int site, CancellationToken cancellation)
        => await store.ReadAsync(
            $"""
            select i.working_day, i.barge, i.casing, i.set_up, i.started_at, i.deepest_at, i.ended_at, i.outcome, p.number, p.zone,
                coalesce(p.number is not null and row_number() over (partition by i.adopted order by i.ended_at, i.sequence) > 1, false)
            from derived.installation i left join derived.pile p on p.site = i.site and p.number = i.adopted
            where i.site = $1 and i.ended_at is not null and i.match not in ({(int)MatchOutcome.DuplicateRecord}, {(int)MatchOutcome.Trial})
            order by i.ended_at, i.sequence
            """,
            row => new AttemptRow(
                LocalDate.FromDateOnly(row.GetFieldValue<DateOnly>(0)),
                new Installation(
                    null, row.TextOrNull(8) ?? "", row.GetString(1), row.WholeOrNull(2), row.TextOrNull(3), Moment(row.MomentOrNull(4)), Moment(row.MomentOrNull(5)),
                    Moment(row.MomentOrNull(6)), null, null, null, null, null, null, null, null, null, null, null, (Outcome)row.GetInt16(7), null),
                row.TextOrNull(9),
                row.GetBoolean(10)),
            cancellation,
            Site(site));

    private static Instant? Moment(DateTime? utc) => utc is { } moment ? Instant.FromDateTimeUtc(DateTime.SpecifyKind(moment, DateTimeKind.Utc)) : null;
}
