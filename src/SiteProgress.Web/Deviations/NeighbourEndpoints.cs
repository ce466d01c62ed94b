using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using SiteProgress.Core.Neighbours;
using SiteProgress.Exchange;
using SiteProgress.Jobs.Deviations;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Deviations;

/// <summary>Spacing of neighbours for programs and as tables.</summary>
internal sealed class NeighbourEndpoints : IEndpoints
{
    private const int MostPairs = 1000;

    /// <summary>The spacing of neighbours; of each kind at most 1000 pairs, all of them in the table.</summary>
    internal sealed record Answer(long SequenceOfRecords, int Pairs, int Wider, int Closer, IReadOnlyList<Line> WidestFirst, IReadOnlyList<Line> ClosestFirst);

    /// <summary>A pair.</summary>
    internal sealed record Line(string One, string Other, string Zone, double DesignMetres, double AsBuiltMetres, double DifferenceMetres, double ClearMetres, double DesignClearMetres, bool BothWithinLimit);

    /// <summary>What the address asks; allowances in millimetres, what cannot be read is not asked for.</summary>
    public static ReviewNeighbours.Request Read(string? zone, string? wider, string? closer, string? pair)
    {
        string[] two = pair?.Split(',') ?? [];
        return new ReviewNeighbours.Request(
            string.IsNullOrWhiteSpace(zone) ? null : zone.Trim(), Metres(wider), Metres(closer), two.Length == 2 ? two[0].Trim() : null, two.Length == 2 ? two[1].Trim() : null);
    }

    /// <inheritdoc />
    public void Map(IEndpointRouteBuilder app, RouteGroupBuilder api)
    {
        api.MapGet("/sites/{site}/neighbours", (HttpContext http, string site, [FromQuery] string? zone, [FromQuery] string? wider, [FromQuery] string? closer, ReviewNeighbours review) =>
                Refused(wider, closer) ?? Api.AskAsync(http, site, async (permit, cancellation) => Of(await review.RunAsync(permit, Read(zone, wider, closer, null), cancellation))))
            .Produces<Answer>().WithName("Neighbours").WithSummary("Spacing of built neighbours against the design: pairs too far apart and too close (wider, closer: allowances in millimetres).");
        api.MapGet("/sites/{site}/neighbours.csv", (HttpContext http, string site, [FromQuery] string? zone, [FromQuery] string? wider, [FromQuery] string? closer, ReviewNeighbours review) =>
                Refused(wider, closer) ?? Api.AskAsync(http, site, async (permit, cancellation) => TableAnswer.Of(
                    $"{permit.SiteCode}-neighbours.csv", Pairs, await review.RunAsync(permit, Read(zone, wider, closer, null), cancellation))))
            .Produces<string>(contentType: TableAnswer.ContentType).WithName("NeighboursTable").WithSummary("The pairs as a table.");
    }

    private static Task<IResult>? Refused(string? wider, string? closer)
    {
        IResult? refusal = AskedParts.Refusal(
            ("wider", wider, Metres(wider) is not null, "millimetres, 0 or more"), ("closer", closer, Metres(closer) is not null, "millimetres, 0 or more"));
        return refusal is null ? null : Task.FromResult(refusal);
    }

    private static Answer Of(ReviewNeighbours.View view) => new(
        view.SequenceOfRecords, view.Review.Pairs, view.Review.Wider.Count, view.Review.Closer.Count,
        view.Review.Wider.Take(MostPairs).Select(Of).ToArray(), view.Review.Closer.Take(MostPairs).Select(Of).ToArray());

    private static Line Of(NeighbourPair pair) => new(
        pair.One.Number, pair.Other.Number, pair.One.Zone, pair.DesignMetres, pair.AsBuiltMetres, pair.DifferenceMetres, pair.ClearMetres, pair.DesignClearMetres, pair.BothWithinLimit);

    private static void Pairs(TableWriter table, ReviewNeighbours.View view)
    {
        table.Header("Pile No", "Neighbour", "Zone", "Design spacing [m]", "As-built spacing [m]", "Difference [m]", "Between faces [m]", "Between faces by design [m]", "Both within limit", "What");
        foreach ((NeighbourPair pair, string what) in view.Review.Wider.Select(pair => (pair, "too far apart")).Concat(view.Review.Closer.Select(pair => (pair, "too close"))))
        {
            table.Text(pair.One.Number).Text(pair.Other.Number).Text(pair.One.Zone).Number(pair.DesignMetres, 4).Number(pair.AsBuiltMetres, 4).Number(pair.DifferenceMetres, 4)
                .Number(pair.ClearMetres, 3).Number(pair.DesignClearMetres, 3).Text(pair.BothWithinLimit ? "yes" : "no").Text(what).EndRow();
        }
    }

    private static double? Metres(string? millimetres)
        => double.TryParse(millimetres, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) && double.IsFinite(number) && number >= 0 ? number / 1000 : null;
}
