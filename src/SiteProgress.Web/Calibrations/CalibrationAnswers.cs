using SiteProgress.Jobs.Calibrations;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Calibrations;

/// <summary>Calibrations and gauges for programs.</summary>
internal sealed class CalibrationAnswers : IEndpoints
{
    public void Map(IEndpointRouteBuilder app, RouteGroupBuilder api)
        => api.MapGet("/sites/{site}/calibrations", (HttpContext http, string site, ReadCalibrations job) => Api.AskAsync(http, site, job.RunAsync))
            .WithName("Calibrations").WithSummary("Calibrations, last checks of barges, gauges and their checks. Instants are UTC.").Produces<CalibrationsView>();
}
