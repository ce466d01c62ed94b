using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Piles;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Piles;

/// <summary>Piles and installations for programs, and the list of piles as a table to keep.</summary>
internal sealed class PileEndpoints : IEndpoints
{
    public void Map(IEndpointRouteBuilder app, RouteGroupBuilder api)
    {
        api.MapGet("/sites/{site}/piles", (HttpContext http, string site, ListPiles job, int? skip, int? take) =>
                Api.AskAsync<object>(http, site, async (permit, cancellation) =>
                {
                    if (PileQuery.Refusal(http.Request.Query) is { } refusal) return refusal;
                    PileQuery query = PileQuery.Read(http.Request.QueryString.Value);
                    return await job.PageAsync(permit, query.Filter, query.Order, query.Descending, skip ?? 0, take ?? 100, cancellation);
                }))
            .WithName("Piles")
            .WithSummary("Piles by the filter of the page: number, zone, state, barge, day, finding; sort, order=descending; skip, take (at most 1000).")
            .Produces<ListPiles.Page>();
        api.MapGet("/sites/{site}/piles.csv", (HttpContext http, string site, ListPiles job) =>
                Api.AskAsync<IResult>(http, site, async (permit, cancellation) =>
                {
                    if (PileQuery.Refusal(http.Request.Query) is { } refusal) return refusal;
                    PileQuery query = PileQuery.Read(http.Request.QueryString.Value);
                    ListPiles.Choices? choices = await job.ChoicesAsync(permit, query.Filter, cancellation);
                    if (choices is null) return Results.NotFound();
                    return new PileTable(site, choices, await job.AllAsync(permit, query.Filter, query.Order, query.Descending, cancellation));
                }))
            .WithName("PilesTable")
            .WithSummary("The same piles as comma-separated text.")
            .Produces(StatusCodes.Status200OK, contentType: "text/csv");
        api.MapGet("/sites/{site}/piles/{number}", (HttpContext http, string site, string number, ReadPileRecord job) =>
                Api.AskAsync(http, site, (permit, cancellation) => job.RunAsync(permit, number, cancellation)))
            .WithName("PileRecord")
            .WithSummary("One pile: design, as-built, checks with their numbers, attempts and the records that concern it.")
            .Produces<PileRecord>()
            .ProducesProblem(StatusCodes.Status404NotFound);
        api.MapGet("/sites/{site}/installations", (HttpContext http, string site, ListInstallations job, string? show, string? number, string? barge, string? day, long? batch, int? skip, int? take) =>
                Api.AskAsync<object>(http, site, async (permit, cancellation) =>
                    AskedParts.Refusal(
                        ("show", show, Enum.TryParse(show, ignoreCase: true, out ListInstallations.Which which) && Enum.IsDefined(which), "all, waiting, trial, standing or repeated"),
                        AskedParts.Day("day", day)) is { } refusal
                        ? refusal
                        : await job.RunAsync(permit, Installations(show, number, barge, day, batch), skip ?? 0, take ?? 100, cancellation)))
            .WithName("Installations")
            .WithSummary("Recorded installations: show=all, waiting, trial, standing or repeated; number, barge, day, batch; skip, take (at most 1000).")
            .Produces<ListInstallations.Page>();
    }

    /// <summary>The filter of an address; words that mean nothing here are left out.</summary>
    public static ListInstallations.Filter Installations(string? show, string? number, string? barge, string? day, long? batch) => new()
    {
        Show = Enum.TryParse(show, ignoreCase: true, out ListInstallations.Which which) && Enum.IsDefined(which) ? which : ListInstallations.Which.All,
        Number = number,
        Barge = string.IsNullOrWhiteSpace(barge) ? null : barge,
        Day = ShowDay.LocalFromAddress(day),
        Batch = batch,
    };
}
