using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Treatment;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Piles;

/// <summary>The treatment and acceptance of piles for programs.</summary>
internal sealed class AcceptanceEndpoints : IEndpoints
{
    public void Map(IEndpointRouteBuilder app, RouteGroupBuilder api)
    {
        api.MapGet("/sites/{site}/piles/{number}/treatment", (HttpContext http, string site, string number, ReadPileTreatment job) =>
                Api.AskAsync(http, site, (permit, cancellation) => job.RunAsync(permit, number, cancellation)))
            .WithName("PileTreatment").WithSummary("What was decided about a pile, with its sheet; send the hash back as seen.").Produces<ReadPileTreatment.View>().ProducesProblem(404);
        api.MapGet("/sites/{site}/piles/{number}/signed-changes", (HttpContext http, string site, string number, ReadSignedChanges job) =>
                Api.AskAsync(http, site, (permit, cancellation) => job.PileAsync(permit, number, cancellation)))
            .WithName("PileSignedChanges").WithSummary("What differs between the accepted sheet of a re-opened pile and its sheet of now, line by line; 404 where an acceptance holds or there is none.").Produces<ReadSignedChanges.OfPile>().ProducesProblem(404);
        TreatmentAnswers.Describe(
            api.MapPost("/sites/{site}/piles/{number}/acceptance", (HttpContext http, string site, string number, AcceptanceRequest sent, AcceptPiles job) =>
                TreatmentAnswers.AskAsync(http, site, (permit, cancellation) => job.OneAsync(permit, number, sent.Comment ?? "", sent.Seen ?? "", cancellation))),
            "AcceptPile",
            "Accepts one pile.");
        TreatmentAnswers.Describe(
            api.MapPost("/sites/{site}/piles/{number}/acceptance-withdrawal", (HttpContext http, string site, string number, AcceptanceRequest sent, AcceptPiles job) =>
                TreatmentAnswers.AskAsync(http, site, (permit, cancellation) => job.WithdrawAsync(permit, number, sent.Comment ?? "", cancellation))),
            "WithdrawAcceptance",
            "Withdraws the acceptance of a pile; comment is the reason.");
        MapSelections(api);
    }

    private static void MapSelections(RouteGroupBuilder api)
    {
        api.MapGet("/sites/{site}/selection", (HttpContext http, string site, ReadLots job) =>
                Api.AskAsync<object>(http, site, async (permit, cancellation) =>
                    PileQuery.Refusal(http.Request.Query) is { } refusal ? refusal : (await job.SelectedAsync(permit, Selected(http), cancellation))!))
            .WithName("Selection").WithSummary("Sums up the piles of a filter, the same words as for piles: ready, left out and why, lot rules.").Produces<ReadLots.Selected>();
        TreatmentAnswers.Describe(
            api.MapPost("/sites/{site}/selection/acceptance", (HttpContext http, string site, AcceptanceRequest sent, AcceptPiles job) =>
                SelectionAsync(http, site, (permit, selection, cancellation) => job.SelectionAsync(permit, selection, sent.Comment ?? "", sent.Seen ?? "", cancellation))),
            "AcceptSelection",
            "Accepts the piles of a filter that are ready.");
        TreatmentAnswers.Describe(
            api.MapPost("/sites/{site}/selection/lot", (HttpContext http, string site, AcceptanceRequest sent, SubmitLot job) =>
                SelectionAsync(http, site, (permit, selection, cancellation) => job.RunAsync(permit, selection, sent.Comment ?? "", sent.Seen ?? "", cancellation))),
            "SubmitSelection",
            "Submits the piles of a filter in a lot; comment says what the lot is.");
    }

    /// <summary>A word that means nothing here would widen the selection unnoticed, so it is refused.</summary>
    private static Task<IResult> SelectionAsync(HttpContext http, string site, Func<Permit, PileSelection, CancellationToken, Task<TreatmentAnswer>> job)
        => PileQuery.Refusal(http.Request.Query) is { } refusal
            ? Task.FromResult(refusal)
            : TreatmentAnswers.AskAsync(http, site, (permit, cancellation) => job(permit, Selected(http), cancellation));

    private static PileSelection Selected(HttpContext http)
    {
        PileQuery query = PileQuery.Read(http.Request.QueryString.Value);
        return new PileSelection(query.Text().TrimStart('?'), query.Filter);
    }

    /// <summary>A decision on piles; seen is the hash of what was shown.</summary>
    internal sealed record AcceptanceRequest(string? Comment, string? Seen);
}
