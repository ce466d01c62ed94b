using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Design;
using SiteProgress.Jobs.Design;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Design;

/// <summary>Doubtful planned piles for programs and as a table.</summary>
internal sealed class DoubtAnswers : IEndpoints
{
    private const int MostDoubts = 100_000;

    /// <summary>The doubts; of more than 100 000 the first, all of them in the table.</summary>
    internal sealed record DoubtfulAnswer(long SequenceOfRecords, int PilesHeld, int Doubts, IReadOnlyList<DoubtAnswer> Piles, IReadOnlyList<string> UnusableOutlinesOfZones);

    /// <summary>A doubt about a planned pile. Metres on the site grid; liesInZones is null of a pair of piles.</summary>
    internal sealed record DoubtAnswer(
        DoubtKind Doubt, string Pile, string Zone, SiteCoordinate Position, string? OtherPile, string? ZoneOfOther, double? ApartMetres, double? LeastMetres, IReadOnlyList<string>? LiesInZones);

    /// <inheritdoc />
    public void Map(IEndpointRouteBuilder app, RouteGroupBuilder api)
    {
        api.MapGet("/sites/{site}/design/doubtful", (HttpContext http, string site, ReadDoubtfulPiles read) =>
                Api.AskAsync(http, site, async (permit, cancellation) => Of(await read.RunAsync(permit, cancellation))))
            .Produces<DoubtfulAnswer>().WithName("DoubtfulPiles").WithSummary("Planned piles that are doubled, too close to each other, or in the outline of another zone than the schedule says.");
        api.MapGet("/sites/{site}/design/doubtful.csv", (HttpContext http, string site, ReadDoubtfulPiles read) =>
                Api.AskAsync(http, site, async (permit, cancellation) => TableAnswer.Of($"{permit.SiteCode}-doubtful-piles.csv", DoubtWords.Table, await read.RunAsync(permit, cancellation))))
            .Produces<string>(contentType: TableAnswer.ContentType).WithName("DoubtfulPilesTable").WithSummary("The same as a table.");
    }

    private static DoubtfulAnswer Of(ReadDoubtfulPiles.View view) => new(
        view.RecordSequence, view.Held, view.Doubtful.Doubts.Count,
        [.. view.Doubtful.Doubts.Take(MostDoubts).Select(doubt => new DoubtAnswer(
            doubt.Kind, doubt.Pile.Number, doubt.Pile.Zone, doubt.Pile.Position, doubt.Other?.Number, doubt.Other?.Zone, doubt.ApartMetres, doubt.LeastMetres, doubt.LiesIn))],
        [.. view.Doubtful.UnusableOutlines.Select(one => one.Zone)]);
}
