using NodaTime;
using SiteProgress.Exchange;
using SiteProgress.Jobs.History;
using SiteProgress.Jobs.Verification;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.History;

/// <summary>History and verification for programs, and the history as a table.</summary>
internal sealed class HistoryAnswers : IEndpoints
{
    public void Map(IEndpointRouteBuilder app, RouteGroupBuilder api)
    {
        api.MapGet("/sites/{site}/history", (HttpContext http, string site, string? what, string? by, string? from, string? to, int? skip, int? take, ReadHistory job) =>
            Api.AskAsync(http, site, async (permit, cancellation) =>
            {
                HistoryQuery asked = HistoryQuery.Read(what, by, from, to, null);
                if (AskedParts.Refusal(
                    ("what", what, asked.Filter.Group is not null, "one of " + string.Join(", ", HistoryQuery.Groups.Select(group => group.Word))),
                    ("from", from, asked.Filter.From is not null, "a day such as 2026-05-29"),
                    ("to", to, asked.Filter.To is not null, "a day such as 2026-05-29")) is { } refusal) return refusal;
                HistoryPart part = await job.RunAsync(permit, asked.Filter, skip ?? 0, take ?? 1000, cancellation);
                return Results.Ok(new HistoryAnswer(part.Total, [.. part.Entries.Select(entry => new HistoryEntryAnswer(
                    entry.Sequence, entry.At.ToDateTimeUtc(), entry.By, HistoryQuery.Word(entry.Group)!, entry.What, entry.Why, HistoryLinks.Of(site, entry.Touches)?.Address, entry.Hash))]));
            }))
            .WithName("History").WithSummary("Every record that is no row of a batch, the latest first: who, when, what and why. Instants are UTC.").Produces<HistoryAnswer>();
        api.MapGet("/sites/{site}/verification", (HttpContext http, string site, VerifyOwnSite job) => Api.AskAsync(http, site, job.RunAsync))
            .WithName("Verification").WithSummary("Recomputes chain and derived state of the site and names the first break. It may take a while.").Produces<SiteVerification>();
        app.MapGet("/sites/{site}/history.csv", (HttpContext http, string site, string? what, string? by, string? from, string? to, ReadHistory job) =>
            Api.AskAsync(http, site, async (permit, cancellation) => TableAnswer.Of(
                $"{site}-history.csv", Write, await job.RunAsync(permit, HistoryQuery.Read(what, by, from, to, null).Filter, 0, ReadHistory.MostEntries, cancellation)))).ExcludeFromDescription();
    }

    private static void Write(TableWriter table, HistoryPart part)
    {
        DateTimeZone zone = new SiteTime(part.TimeZone).Zone;
        table.Header("Record", "When", "Who", "What", "Why", "Hash");
        foreach (HistoryEntry entry in part.Entries)
            table.Whole(entry.Sequence).Time(entry.At, zone).Text(entry.By).Text(entry.What).Text(entry.Why).Text(entry.Hash).EndRow();
    }
}

/// <summary>A part of the history.</summary>
internal sealed record HistoryAnswer(int Total, IReadOnlyList<HistoryEntryAnswer> Entries);

/// <summary>One record of the history.</summary>
internal sealed record HistoryEntryAnswer(long Sequence, DateTime RecordedAt, string RecordedBy, string Group, string What, string? Why, string? Touches, string Hash);
