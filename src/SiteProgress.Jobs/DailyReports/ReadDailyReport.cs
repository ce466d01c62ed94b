using System.Text.Json;
using Npgsql;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Piles;
using SiteProgress.Jobs.Recording;
using SiteProgress.Jobs.Sites;
using SiteProgress.Storage.Derived;
using static SiteProgress.Jobs.Sites.RowReading;

namespace SiteProgress.Jobs.DailyReports;

/// <summary>Reads the daily report of a working day: an issue of it, or what an issue made now would say.</summary>
public sealed class ReadDailyReport(NpgsqlDataSource store, SiteHistories histories)
{
    /// <summary>Reads the report.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="day">Working day; null for the last one with records.</param>
    /// <param name="issue">Issue; null for the last, or for the draft where there is none; 0 for the draft.</param>
    /// <param name="cancellation">Ends the reading.</param>
    /// <returns>The report; null where the site has no settings or no such issue.</returns>
    [Needs(Right.See)]
    public async Task<DailyReportView?> RunAsync(Permit permit, DateOnly? day, int? issue, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        if (await StoredSettings.ReadAsync(store, permit.Site, cancellation) is not { } settings) return null;
        DateOnly shown = day ?? (await store.ReadAsync(
            "select max(working_day) from derived.day_production where site = $1", row => row.DayOrNull(0), cancellation, Site(permit.Site))).Single() ?? new DateOnly(1970, 1, 1);
        (DailyReportContent draft, long sequence, string hash) = await DraftAsync(store, histories, permit.Site, settings, shown, cancellation);
        List<(ReportIssue Issue, string Content)> issues = await NamedAsync(await IssuesAsync(permit.Site, shown, cancellation), cancellation);
        int? asked = issue == 0 ? null : issue ?? (issues.Count > 0 ? issues[^1].Issue.Issue : null);
        string? content = asked is { } number ? issues.FirstOrDefault(one => one.Issue.Issue == number).Content : null;
        if (asked is not null && content is null) return null;
        return new DailyReportView(
            sequence,
            hash,
            settings.TimeZone,
            shown,
            content is null ? draft : JsonSerializer.Deserialize<DailyReportContent>(content, RecordJson.Options)!,
            asked,
            issues.Select(one => one.Issue).ToArray(),
            issues.Count > 0 && issues[^1].Content != JsonSerializer.Serialize(draft, RecordJson.Options));
    }

    /// <summary>What an issue made now would say, and the record it follows from; read again where a record came in meanwhile.</summary>
    internal static async Task<(DailyReportContent Content, long Sequence, string Hash)> DraftAsync(
        NpgsqlDataSource store, SiteHistories histories, int site, SiteSettings settings, DateOnly day, CancellationToken cancellation)
    {
        for (int attempt = 0; ; attempt++)
        {
            (long sequence, string hash) = await HeadAsync(store, site, cancellation);
            SandDelivery[] deliveries = (await histories.ReadAsync(site, cancellation)).Deliveries.Select(row => row.Value).ToArray();
            DailyReportContent content = await new ReportDraft(store, site, settings, deliveries, day).MakeAsync(cancellation);
            if ((await HeadAsync(store, site, cancellation)).Sequence == sequence || attempt == 4) return (content, sequence, hash);
        }
    }

    private static async Task<(long Sequence, string Hash)> HeadAsync(NpgsqlDataSource store, int site, CancellationToken cancellation)
        => (await store.ReadAsync("select sequence, encode(hash, 'hex') from derived.site_state where site = $1", row => (row.GetInt64(0), row.GetString(1)), cancellation, Site(site))).Single();

    /// <summary>With the names people know in the place of the accounts that the records hold.</summary>
    private async Task<List<(ReportIssue Issue, string Content)>> NamedAsync(List<(ReportIssue Issue, string Content)> issues, CancellationToken cancellation)
    {
        if (issues.Count == 0) return issues;
        await using NpgsqlConnection connection = await store.OpenConnectionAsync(cancellation);
        IReadOnlyDictionary<string, string> names = await RecorderNames.ReadAsync(
            connection,
            issues.SelectMany(one => one.Issue.Disputes.Select(dispute => dispute.By).Concat(new[] { one.Issue.IssuedBy, one.Issue.SignedBy, one.Issue.CountersignedBy }.OfType<string>())),
            cancellation);
        string? Name(string? by) => by is null ? null : names[by];
        return
        [
            .. issues.Select(one => (one.Issue with
            {
                IssuedBy = names[one.Issue.IssuedBy],
                SignedBy = Name(one.Issue.SignedBy),
                CountersignedBy = Name(one.Issue.CountersignedBy),
                Disputes = [.. one.Issue.Disputes.Select(dispute => dispute with { By = names[dispute.By] })],
            }, one.Content)),
        ];
    }

    private Task<List<(ReportIssue Issue, string Content)>> IssuesAsync(int site, DateOnly day, CancellationToken cancellation)
        => store.ReadAsync(
            """
            select issue, head_sequence, head_hash, reason, issued_at, issued_by, signed_at, signed_by, countersigned_at, countersigned_by, disputes::text, content
            from derived.daily_report where site = $1 and working_day = $2 order by issue
            """,
            row => (
                new ReportIssue(
                    row.GetInt32(0), row.GetInt64(1), row.GetString(2), row.TextOrNull(3), row.GetDateTime(4), row.GetString(5), row.MomentOrNull(6), row.TextOrNull(7),
                    row.MomentOrNull(8), row.TextOrNull(9),
                    JsonSerializer.Deserialize<ReportDispute[]>(row.GetString(10), RecordJson.Options)!.Select(one => new DisputedLine(one.Line, one.Text, one.At, one.By)).ToArray()),
                row.GetString(11)),
            cancellation,
            Site(site),
            Day(day));
}
