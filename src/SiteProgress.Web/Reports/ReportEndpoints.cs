using SiteProgress.Jobs.HandOver;
using SiteProgress.Jobs.Operation;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Reports;

/// <summary>The state of the record and the hand-over package, for people and programs.</summary>
internal sealed class ReportEndpoints : IEndpoints
{
    public void Map(IEndpointRouteBuilder app, RouteGroupBuilder api)
    {
        api.MapGet("/sites/{site}/hand-over", (HttpContext http, string site, ReadHandOver job) => Api.AskAsync(http, site, job.RunAsync))
            .WithName("HandOver").WithSummary("What is accepted, and what a hand-over now would leave open.").Produces<ReadHandOver.View>();
        api.MapGet("/sites/{site}/hand-over/package", (HttpContext http, string site, long? record, WriteHandOver job) =>
                Api.AskAsync<IResult>(http, site, async (permit, cancellation) => await AnswerAsync(http, job.RunAsync(permit, record, cancellation))))
            .WithName("HandOverPackage")
            .WithSummary("The whole record as one archive that can be checked without this software; record=N for the state after record N.")
            .Produces(StatusCodes.Status200OK, contentType: "application/zip")
            .ProducesProblem(StatusCodes.Status404NotFound);
        MapOffers(api);
    }

    private static void MapOffers(RouteGroupBuilder api)
    {
        TreatmentAnswers.Describe(
            api.MapPost("/sites/{site}/hand-over/offers", (HttpContext http, string site, OfferRequest sent, KeepHandOver job) => TreatmentAnswers.AskAsync(http, site, (permit, cancellation) => job.OfferAsync(permit, sent.Note, cancellation))),
            "OfferHandOver", "Makes the package of the record as it stands and offers it to the owner.");
        TreatmentAnswers.Describe(
            api.MapPost("/sites/{site}/hand-over/offers/{offer:int}/answer", (HttpContext http, string site, int offer, AnswerRequest sent, KeepHandOver job) => TreatmentAnswers.AskAsync(http, site, (permit, cancellation) => sent.Received
                ? job.TakeOverAsync(permit, offer, sent.Sha256, sent.Comment, cancellation) : job.DeclineAsync(permit, offer, sent.Comment, cancellation))),
            "AnswerHandOver", "Takes the last offer over, with the SHA-256 of the package that was received, or does not and says why.");
    }

    /// <summary>An offer.</summary>
    /// <param name="Note">What is handed over.</param>
    internal sealed record OfferRequest(string Note);

    /// <summary>An answer.</summary>
    /// <param name="Received">True where it is taken over.</param>
    /// <param name="Sha256">SHA-256 of the package as received.</param>
    /// <param name="Comment">What is said.</param>
    internal sealed record AnswerRequest(bool Received, string? Sha256, string? Comment);

    private static async Task<IResult> AnswerAsync(HttpContext http, Task<HandOverPackage?> making)
    {
        try
        {
            if (await making is not { } package) return Results.Problem(statusCode: StatusCodes.Status404NotFound, detail: "The site has no such record.");
            // RFC 9530: the digest lets the receiver see that the archive came through whole.
            http.Response.Headers["Repr-Digest"] = $"sha-256=:{Convert.ToBase64String(Convert.FromHexString(package.Sha256))}:";
            return Results.File(package.Bytes, "application/zip", package.FileName);
        }
        catch (IOException failure) when (DiskRoom.IsFull(failure))
        {
            return Results.Problem(statusCode: StatusCodes.Status507InsufficientStorage, detail: "The server has no room for the package. Tell its operator.");
        }
    }
}
