using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Design.Layouts;
using SiteProgress.Exchange.PileSchedules;
using SiteProgress.Jobs.Design;
using SiteProgress.Jobs.RecordsIn;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Design;

/// <summary>Layouts of piles for programs, and as pile schedules that can be sent in.</summary>
internal sealed class LayoutAnswers : IEndpoints
{
    private const int MostPiles = 100_000;

    /// <summary>A layout. Metres, square and cubic metres, ratios; of more than 100 000 piles the first, all of them in the table. layout is null where problems keep it from being laid out.</summary>
    internal sealed record LayoutAnswer(
        long SequenceOfRecords, string Zone, LayoutTexts Asked, int PlannedInZone, bool Replaces, LayoutFigures? Figures, IReadOnlyList<LayoutProblem> Problems,
        IReadOnlyList<string> LookAt, IReadOnlyList<PileAnswer> Piles);

    /// <summary>A pile of a layout, metres on the site grid.</summary>
    internal sealed record PileAnswer(string Pile, int Row, SiteCoordinate Position);

    /// <summary>What was sent in, and the page that says what recording it would do.</summary>
    internal sealed record SentInAnswer(Guid Upload, string Preview);

    /// <inheritdoc />
    public void Map(IEndpointRouteBuilder app, RouteGroupBuilder api)
    {
        api.MapGet("/sites/{site}/design/layout", (HttpContext http, string site, [AsParameters] LayoutTexts asked, LayOutPiles job) =>
                Api.AskAsync(http, site, async (permit, cancellation) => await job.RunAsync(permit, asked, cancellation) is { } view ? Of(view) : null))
            .Produces<LayoutAnswer>().WithName("Layout")
            .WithSummary("Piles of a zone laid out by a pattern, with what they amount to; what is left out comes from the zone's design. It informs; the licensed designer and local codes decide.");
        api.MapGet("/sites/{site}/design/layout.csv", (HttpContext http, string site, [AsParameters] LayoutTexts asked, LayOutPiles job) =>
                Api.AskAsync(http, site, async (permit, cancellation) => await job.RunAsync(permit, asked, cancellation) switch
                {
                    null => null!,
                    { Layout: { } layout, Problems.Count: 0 } view => TableAnswer.Of(
                        LayOutPiles.FileName(view), (table, piles) => PlannedPileTable.Write(table, view.Axes, piles), layout.Planned()),
                    { Problems: var problems } => Results.Problem(statusCode: 400, detail: Sentence(problems)),
                }))
            .Produces<string>(contentType: TableAnswer.ContentType).ProducesProblem(400).WithName("LayoutTable").WithSummary("The same as a pile schedule, which records in takes.");
        api.MapPost("/sites/{site}/design/layout", (HttpContext http, string site, LayoutTexts asked, LayOutPiles job) =>
                Api.AskAsync(http, site, async (permit, cancellation) => await job.SendInAsync(permit, asked, cancellation) switch
                {
                    { Upload: { } upload } => Results.Ok(new SentInAnswer(upload, $"/sites/{permit.SiteCode}/records-in/{upload:D}")),
                    { Refusal: var refusal } => Results.Problem(statusCode: 409, detail: refusal),
                }))
            .Produces<SentInAnswer>().ProducesProblem(409).WithName("SendLayoutIn").WithSummary("Sends a layout in as a pile schedule. Nothing is recorded by this.");
    }

    private static string Sentence(IReadOnlyList<LayoutProblem> problems)
        => string.Join(" ", problems.Take(5).Select(one => $"{one.Where}: {one.Found}; expected {one.Expected}."));

    private static LayoutAnswer Of(LayOutPiles.View view) => new(
        view.RecordSequence, view.Zone.Code, view.Texts, view.PlannedInZone, view.Replaces, view.Layout?.Figures, view.Problems, [.. view.Cautions.Select(one => one.Text)],
        [.. (view.Layout?.Piles ?? []).Take(MostPiles).Select(pile => new PileAnswer(pile.Number, pile.Row, pile.Position))]);
}
