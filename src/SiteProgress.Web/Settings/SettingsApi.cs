using System.Text.Json;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Sites;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Settings;

/// <summary>The settings of a site for programs, in the form in which the operator's file and the records write them.</summary>
internal sealed class SettingsApi : IEndpoints
{
    public void Map(IEndpointRouteBuilder app, RouteGroupBuilder api)
        => api.MapGet("/sites/{site}/settings", (HttpContext http, string site, ReadSettings job) =>
            Api.AskAsync(http, site, async (permit, cancellation) =>
                await job.RunAsync(permit, cancellation) is { } settings
                    ? Results.Text(JsonSerializer.Serialize(settings, RecordJson.Options), "application/json; charset=utf-8")
                    : Results.NotFound()))
            .WithName("Settings").WithSummary("Settings of the site: zones with design and limits, barges, sand sources, time.").ProducesProblem(404);
}
