using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Treatment;

namespace SiteProgress.Web.Shell;

/// <summary>How an action on a treatment is answered to a program.</summary>
internal static class TreatmentAnswers
{
    /// <summary>Runs an action: 200 with the number, 409 when somebody else was first, 422 with the reason otherwise.</summary>
    public static Task<IResult> AskAsync(HttpContext http, string site, Func<Permit, CancellationToken, Task<TreatmentAnswer>> job)
        => Api.AskAsync<IResult>(http, site, async (permit, cancellation) => await job(permit, cancellation) switch
        {
            { Refusal: null } done => Results.Ok(new Recorded(done.Number)),
            { Conflict: true } stale => Results.Problem(statusCode: StatusCodes.Status409Conflict, title: "Nothing was recorded.", detail: stale.Refusal),
            var refused => Results.Problem(statusCode: StatusCodes.Status422UnprocessableEntity, title: "Nothing was recorded.", detail: refused.Refusal),
        });

    /// <summary>Describes an action.</summary>
    public static void Describe(RouteHandlerBuilder route, string name, string summary)
        => route.WithName(name).WithSummary(summary).Produces<Recorded>().ProducesProblem(403).ProducesProblem(409).ProducesProblem(422);

    /// <summary>What was recorded.</summary>
    /// <param name="Number">Number of the non-conformance, lot or hold point; null for piles.</param>
    internal sealed record Recorded(int? Number);
}
