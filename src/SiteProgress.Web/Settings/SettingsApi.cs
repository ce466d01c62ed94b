using System.Text.Json;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Sites;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Settings;

/// <summary>The settings of a site for programs, in the form in which the operator's file and the records write them.</summary>
internal sealed class SettingsApi : IEndpoints
{
    public void Map(IEndpointRouteBuilder app, RouteGroupBuilder api)
    {
        api.MapGet("/sites/{site}/settings", (HttpContext http, string site, ReadSettings job) =>
            Api.AskAsync(http, site, async (permit, cancellation) =>
                await job.RunAsync(permit, cancellation) is { } settings
                    ? Results.Text(JsonSerializer.Serialize(settings, RecordJson.Options), "application/json; charset=utf-8")
                    : Results.NotFound()))
            .WithName("Settings").WithSummary("Settings of the site: zones with design and limits, barges, sand sources, time.").ProducesProblem(404);
        api.MapGet("/sites/{site}/settings/proposals/{proposal:long}", (HttpContext http, string site, long proposal, ReadSettingsProposals job) =>
            Api.AskAsync(http, site, async (permit, cancellation) =>
                await job.OneAsync(permit, proposal, cancellation) is { } shown ? Results.Json(Answer.Of(shown)) : Results.NotFound()))
            .WithName("SettingsProposal").WithSummary("Settings proposed in a record: what differs from those in force, and every pile whose state or verdicts it changes.").ProducesProblem(404);
    }

    private sealed record Answer(
        long Record, string Reason, bool Waits, bool? Approved, string? Comment, IReadOnlyList<SettingsChange> Changes, IReadOnlyList<PileChange> Piles)
    {
        public static Answer Of(ShownSettingsProposal shown) => new(
            shown.Proposal.Sequence, shown.Proposal.Body.Reason, shown.Proposal.Waits, shown.Proposal.Decision?.Body.Approved, shown.Proposal.Decision?.Body.Comment,
            shown.Worked?.Changes ?? [], shown.Worked?.Effect?.Piles ?? []);
    }
}
