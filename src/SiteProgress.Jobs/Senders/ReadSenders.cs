using System.Text.Json;
using NodaTime;
using Npgsql;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Sites;

namespace SiteProgress.Jobs.Senders;

/// <summary>The senders of a site: their keys, what came by them, what could not be taken, and corrections of clocks.</summary>
public sealed class ReadSenders(NpgsqlDataSource store)
{
    private const int BatchesWithProblems = 40;

    /// <summary>Reads them.</summary>
    [Needs(Right.See)]
    public async Task<SendersView> RunAsync(Permit permit, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        SiteSettings? settings = await StoredSettings.ReadAsync(store, permit.Site, cancellation);
        return new SendersView(
            await KeysAsync(permit.Site, cancellation),
            await NotTakenAsync(permit.Site, cancellation),
            await ClocksAsync(permit.Site, cancellation),
            settings?.Barges.Select(barge => barge.Name).ToArray() ?? [],
            settings?.TimeZone ?? "UTC");
    }

    private Task<List<SenderLine>> KeysAsync(int site, CancellationToken cancellation) => store.ReadAsync(
        """
        select k.key, k.sender, k.barges, k.made_at, coalesce(m.display_name, k.made_by), x.last_used,
               k.withdrawn_at, coalesce(w.display_name, k.withdrawn_by), k.withdrawn_because,
               b.batch, b.recorded_at, coalesce(t.rows, 0)::int, coalesce(t.not_taken, 0)::int
        from derived.sender_key k
        left join account.sender_secret x on x.site = k.site and x.key = k.key
        left join account.account m on k.made_by = 'account ' || m.id
        left join account.account w on k.withdrawn_by = 'account ' || w.id
        left join lateral (
            select max(batch) as last, sum(rows_recorded) as rows, sum(cardinality(lines_left_out)) as not_taken
            from derived.batch where site = k.site and recorded_by = 'sender ' || k.key) t on true
        left join derived.batch b on b.site = k.site and b.batch = t.last
        where k.site = $1
        order by k.withdrawn_at is not null, k.sender, k.sequence
        """,
        row => new SenderLine(
            row.GetGuid(0), row.GetString(1), row.GetFieldValue<string[]>(2), At(row, 3)!.Value, row.GetString(4), At(row, 5), At(row, 6),
            row.TextOrNull(7), row.TextOrNull(8), row.IsDBNull(9) ? null : row.GetInt64(9), At(row, 10), row.GetInt32(11), row.GetInt32(12)),
        cancellation,
        RowReading.Site(site));

    private async Task<IReadOnlyList<NotTakenRow>> NotTakenAsync(int site, CancellationToken cancellation)
    {
        List<(long Batch, Instant At, string Sender, string Problems)> batches = await store.ReadAsync(
            """
            select batch, recorded_at, coalesce(sender, ''), problems::text
            from derived.batch where site = $1 and problems is not null order by batch desc limit $2
            """,
            row => (row.GetInt64(0), At(row, 1)!.Value, row.GetString(2), row.GetString(3)),
            cancellation,
            RowReading.Site(site), RowReading.Whole(BatchesWithProblems));
        return [.. batches.SelectMany(batch => JsonSerializer.Deserialize<RowProblem[]>(batch.Problems, RecordJson.Options)!
            .Select(problem => new NotTakenRow(batch.Batch, batch.At, batch.Sender, problem)))];
    }

    private Task<List<ClockLine>> ClocksAsync(int site, CancellationToken cancellation) => store.ReadAsync(
        """
        select c.barge, c.sender, c.span_from, c.span_until, c.ahead, c.reason, c.installations, c.recorded_at, coalesce(a.display_name, c.recorded_by)
        from derived.clock_correction c left join account.account a on c.recorded_by = 'account ' || a.id
        where c.site = $1 order by c.sequence desc
        """,
        row => new ClockLine(
            row.GetString(0), row.TextOrNull(1), At(row, 2)!.Value, At(row, 3)!.Value, row.GetDouble(4), row.GetString(5), row.GetInt32(6), At(row, 7)!.Value, row.GetString(8)),
        cancellation,
        RowReading.Site(site));

    private static Instant? At(NpgsqlDataReader row, int column) => row.MomentOrNull(column) is { } utc ? Instant.FromDateTimeUtc(utc) : null;
}

/// <summary>Senders as the page shows them.</summary>
/// <param name="Keys">Keys, those that work first.</param>
/// <param name="NotTaken">Rows that could not be taken, the latest first.</param>
/// <param name="Clocks">Corrections of clocks, the latest first.</param>
/// <param name="Barges">Barges of the site.</param>
/// <param name="TimeZone">IANA time zone of the site.</param>
public sealed record SendersView(
    IReadOnlyList<SenderLine> Keys, IReadOnlyList<NotTakenRow> NotTaken, IReadOnlyList<ClockLine> Clocks, IReadOnlyList<string> Barges, string TimeZone);

/// <summary>A key of a sender.</summary>
/// <param name="Key">Names the key.</param>
/// <param name="Sender">Name of the sender.</param>
/// <param name="Barges">Barges whose records it may add.</param>
/// <param name="MadeAt">When it was made.</param>
/// <param name="MadeBy">By whom.</param>
/// <param name="LastUsed">When it was last used.</param>
/// <param name="WithdrawnAt">When it was withdrawn; null while it works.</param>
/// <param name="WithdrawnBy">By whom.</param>
/// <param name="WithdrawnBecause">Why.</param>
/// <param name="LastBatch">Sequence of the last batch that came by it.</param>
/// <param name="LastBatchAt">When that came.</param>
/// <param name="Recorded">Rows recorded by it.</param>
/// <param name="NotTaken">Rows of it that could not be taken.</param>
public sealed record SenderLine(
    Guid Key, string Sender, IReadOnlyList<string> Barges, Instant MadeAt, string MadeBy, Instant? LastUsed, Instant? WithdrawnAt,
    string? WithdrawnBy, string? WithdrawnBecause, long? LastBatch, Instant? LastBatchAt, int Recorded, int NotTaken);

/// <summary>A row that could not be taken.</summary>
/// <param name="Batch">Batch it is kept with.</param>
/// <param name="At">When it came.</param>
/// <param name="Sender">Who sent it.</param>
/// <param name="Problem">Which row and column, what was found, what was expected.</param>
public sealed record NotTakenRow(long Batch, Instant At, string Sender, RowProblem Problem);

/// <summary>A correction of a clock.</summary>
/// <param name="Barge">Barge.</param>
/// <param name="Sender">Sender whose records alone are meant.</param>
/// <param name="From">First moment, as the wrong clock showed it.</param>
/// <param name="Until">End, as the wrong clock showed it.</param>
/// <param name="AheadSeconds">By how much the clock was ahead, seconds.</param>
/// <param name="Reason">Why.</param>
/// <param name="Installations">Installations put right by it now.</param>
/// <param name="At">When it was recorded.</param>
/// <param name="By">By whom.</param>
public sealed record ClockLine(
    string Barge, string? Sender, Instant From, Instant Until, double AheadSeconds, string Reason, int Installations, Instant At, string By);
