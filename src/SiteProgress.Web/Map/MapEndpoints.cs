using System.Text;
using SiteProgress.Jobs.Map;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Map;

/// <summary>What the map fetches: pile data and drawing. Both carry a tag, so an answer the browser holds is not sent again.</summary>
internal sealed class MapEndpoints : IEndpoints
{
    public void Map(IEndpointRouteBuilder app, RouteGroupBuilder api)
    {
        api.MapGet("/sites/{site}/map/piles", (HttpContext http, string site, ReadMapPiles job) =>
                Api.AskAsync<IResult>(http, site, async (permit, cancellation) =>
                    TaggedAnswer.Holds(http, await job.TagAsync(permit, cancellation))
                        ? TaggedAnswer.Unchanged
                        : Answer(await job.RunAsync(permit, cancellation))))
            .WithName("MapPiles")
            .WithSummary("All piles of the site as little-endian columns, for the map. An ETag tells one state from the next.")
            .Produces(StatusCodes.Status200OK, contentType: "application/octet-stream")
            .Produces(StatusCodes.Status304NotModified);
        api.MapGet("/sites/{site}/map/drawing", (HttpContext http, string site, ReadMapDrawing job) =>
                Api.AskAsync<IResult>(http, site, async (permit, cancellation) =>
                {
                    ReadMapDrawing.Drawing drawing = await job.RunAsync(permit, cancellation);
                    return TaggedAnswer.Holds(http, drawing.Tag)
                        ? TaggedAnswer.Unchanged
                        : new TaggedAnswer(drawing.Tag, "application/geo+json", (output, stop) => output.WriteAsync(Encoding.UTF8.GetBytes(drawing.GeoJson), stop).AsTask());
                }))
            .WithName("MapDrawing")
            .WithSummary("Site drawing, zones and the last known place of each barge as GeoJSON in longitude and latitude.")
            .Produces(StatusCodes.Status200OK, contentType: "application/geo+json")
            .Produces(StatusCodes.Status304NotModified);
    }

    private static TaggedAnswer Answer(MapPiles piles) => new(piles.Tag, "application/octet-stream", piles.WriteAsync);
}
