using System.Text.Json;
using NodaTime;
using Npgsql;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;
using SiteProgress.Jobs.Sites;

namespace SiteProgress.Jobs.DailyReports;

/// <summary>Issues a daily report, signs it, countersigns it or disputes a line of it. Each is a record; none changes what was issued.</summary>
public sealed class SettleDailyReport(NpgsqlDataSource store, SiteHistories histories, SiteRecorder recorder)
{
    /// <summary>Longest reason or dispute, characters.</summary>
    public static int MostCharacters => 1000;

    /// <summary>Issues the report of a day as it stands, under the chain's head; after the first, a new issue needs a reason.</summary>
    /// <returns>Null, or why nothing was recorded.</returns>
    [Needs(Right.ReviseDesign)]
    public async Task<string?> IssueAsync(Permit permit, DateOnly day, string? reason, CancellationToken cancellation)
    {
        permit.Demand(Right.ReviseDesign);
        if (await StoredSettings.ReadAsync(store, permit.Site, cancellation) is not { } settings) return "The site has no settings yet.";
        if (reason?.Length > MostCharacters) return $"The reason is longer than {MostCharacters} characters; say it shorter.";
        (DailyReportContent content, long sequence, string hash) = await ReadDailyReport.DraftAsync(store, histories, permit.Site, settings, day, cancellation);
        if (content.Lines.All(line => line.Section is not (ReportSection.Production or ReportSection.Hours))) return "Nothing was built and no hours were written on that day; there is nothing to report.";
        string text = JsonSerializer.Serialize(content, RecordJson.Options);
        return await AppendAsync(permit, Right.ReviseDesign, history =>
        {
            // What was worked out must follow from exactly the records under the lock.
            if (history.Sequence != sequence) return ("Records came in while the report was being made; look at it again and issue it then.", null);
            Kept<DailyReportIssuedBody>[] before = Issues(history, day);
            if (before.Length > 0 && before[^1].Body.Content == text) return ("The last issue says exactly this already.", null);
            if (before.Length > 0 && string.IsNullOrWhiteSpace(reason)) return ("This day's report was issued before; say why it is issued again.", null);
            return (null, new DailyReportIssuedBody(LocalDate.FromDateOnly(day), before.Length + 1, text, sequence, hash, before.Length > 0 ? reason!.Trim() : null));
        }, cancellation);
    }

    /// <summary>Signs an issue for the contractor.</summary>
    /// <returns>Null, or why nothing was recorded.</returns>
    [Needs(Right.ReviseDesign)]
    public async Task<string?> SignAsync(Permit permit, DateOnly day, int issue, CancellationToken cancellation)
    {
        permit.Demand(Right.ReviseDesign);
        return await AppendAsync(permit, Right.ReviseDesign, history => Report(history, day, issue) switch
        {
            null => ($"There is no issue {issue} of that day's report.", null),
            { ContractorSigned: not null } => ("It is signed already.", null),
            _ => (null, new DailyReportSignedBody(LocalDate.FromDateOnly(day), issue, false)),
        }, cancellation);
    }

    /// <summary>Countersigns an issue for the owner.</summary>
    /// <returns>Null, or why nothing was recorded.</returns>
    [Needs(Right.Decide)]
    public async Task<string?> CountersignAsync(Permit permit, DateOnly day, int issue, CancellationToken cancellation)
    {
        permit.Demand(Right.Decide);
        return await AppendAsync(permit, Right.Decide, history => Report(history, day, issue) switch
        {
            null => ($"There is no issue {issue} of that day's report.", null),
            { ContractorSigned: null } => ("The contractor has not signed it yet.", null),
            { OwnerSigned: not null } => ("It is countersigned already.", null),
            { } report when report.Issued.By == SiteRecorder.AccountName(permit.Account) || report.ContractorSigned!.By == SiteRecorder.AccountName(permit.Account)
                => ("Nobody countersigns what they issued or signed themselves.", null),
            _ => (null, new DailyReportSignedBody(LocalDate.FromDateOnly(day), issue, true)),
        }, cancellation);
    }

    /// <summary>Disputes a line of an issue for the owner.</summary>
    /// <returns>Null, or why nothing was recorded.</returns>
    [Needs(Right.Decide)]
    public async Task<string?> DisputeAsync(Permit permit, DateOnly day, int issue, string line, string text, CancellationToken cancellation)
    {
        permit.Demand(Right.Decide);
        if (string.IsNullOrEmpty(line)) return "Choose the line that is disputed.";
        if (string.IsNullOrWhiteSpace(text)) return "Say what is disputed and why.";
        if (text.Trim().Length > MostCharacters) return $"The text is longer than {MostCharacters} characters; say it shorter.";
        return await AppendAsync(permit, Right.Decide, history =>
        {
            if (Report(history, day, issue) is not { } report) return ($"There is no issue {issue} of that day's report.", null);
            DailyReportContent content = JsonSerializer.Deserialize<DailyReportContent>(report.Issued.Body.Content, RecordJson.Options)!;
            if (content.Lines.All(one => one.Name != line)) return ($"The report has no line \"{line}\".", null);
            return (null, new DailyReportDisputedBody(LocalDate.FromDateOnly(day), issue, line, text.Trim()));
        }, cancellation);
    }

    private async Task<string?> AppendAsync(Permit permit, Right right, Func<SiteHistory, (string? Refusal, RecordBody? Body)> make, CancellationToken cancellation)
    {
        string? refusal = null;
        await recorder.AppendAsync(
            permit,
            right,
            history =>
            {
                (refusal, RecordBody? body) = make(history);
                return body is null ? [] : [body];
            },
            cancellation);
        return refusal;
    }

    private static Kept<DailyReportIssuedBody>[] Issues(SiteHistory history, DateOnly day)
        => DerivedProgress.Of(history).Reports.Select(report => report.Issued).Where(issued => issued.Body.WorkingDay == LocalDate.FromDateOnly(day)).ToArray();

    private static DerivedDailyReport? Report(SiteHistory history, DateOnly day, int issue)
        => DerivedProgress.Of(history).Reports.FirstOrDefault(report => report.Issued.Body.WorkingDay == LocalDate.FromDateOnly(day) && report.Issued.Body.Issue == issue);
}
