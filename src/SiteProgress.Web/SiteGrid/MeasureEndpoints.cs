using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.SiteGrid;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.SiteGrid;

/// <summary>Lines, check points and projected systems for programs: what the pages say, as numbers.</summary>
internal sealed class MeasureEndpoints : IEndpoints
{
    public void Map(IEndpointRouteBuilder app, RouteGroupBuilder api)
    {
        api.MapGet("/sites/{site}/site-grid/line", LineAsync)
            .WithName("MeasureLine").WithSummary("The line between two points given in one frame (siteGrid, projectedCrs, geographic): on the site grid, the projected CRS, the ellipsoid, and the ground at a height.")
            .Produces<LineAnswer>().ProducesProblem(400).ProducesProblem(404);
        api.MapGet("/sites/{site}/site-grid/check-point", CheckPointAsync)
            .WithName("TestCheckPoint").WithSummary("A known mark as measured against where the adjustment puts it, with the test of the difference. Records nothing.")
            .Produces<CheckPointAnswer>().ProducesProblem(400).ProducesProblem(404);
        api.MapGet("/sites/{site}/site-grid/crs", (HttpContext http, string site, string? definition, TryProjectedCrs job) =>
            Api.AskAsync(http, site, async (permit, cancellation) =>
            {
                CrsTrial trial = await job.RunAsync(permit, definition ?? "", cancellation);
                return trial.Crs is null ? Results.Problem(statusCode: 400, detail: trial.Refusal) : Results.Ok(CrsAnswer.Of(trial));
            }))
            .WithName("TryProjectedCrs").WithSummary("A projected CRS by its EPSG code or its definition as well-known text: axes, unit, meridian, method, or why it is refused. Records nothing.")
            .Produces<CrsAnswer>().ProducesProblem(400).ProducesProblem(404);
    }

    private static Task<IResult> LineAsync(
        HttpContext http, string site, string? from, double? first, double? second, double? first2, double? second2, double? heightMetres, MeasureDistance job)
        => Api.AskAsync(http, site, async (permit, cancellation) =>
        {
            if (ConvertRequest.FrameOf(from) is not { } frame || from == ConvertRequest.OtherDatum || first is null || second is null || first2 is null || second2 is null)
                return Results.Problem(statusCode: 400, detail: "Give from (siteGrid, projectedCrs or geographic), first and second of one point, first2 and second2 of the other.");
            MeasuredLine? line = await job.RunAsync(
                permit, new RecordedPosition(frame, first.Value, second.Value), new RecordedPosition(frame, first2.Value, second2.Value), heightMetres ?? 0, cancellation);
            return line is null ? Results.NotFound() : line.Refusal is { } refusal ? Results.Problem(statusCode: 400, detail: refusal) : Results.Ok(LineAnswer.Of(line));
        });

    private static Task<IResult> CheckPointAsync(
        HttpContext http, string site, string? mark, string? measuredIn, double? first, double? second, double? standardDeviationMetres, TestCheckPoint job)
        => Api.AskAsync(http, site, async (permit, cancellation) =>
        {
            if (mark is null || ConvertRequest.FrameOf(measuredIn) is not { } frame || measuredIn == ConvertRequest.OtherDatum || first is null || second is null || standardDeviationMetres is null)
                return Results.Problem(statusCode: 400, detail: "Give mark, measuredIn (siteGrid, projectedCrs or geographic), first, second and standardDeviationMetres.");
            CheckPointTest? test = await job.RunAsync(permit, mark, new RecordedPosition(frame, first.Value, second.Value), standardDeviationMetres.Value, cancellation);
            return test is null ? Results.NotFound() : test.Refusal is { } refusal ? Results.Problem(statusCode: 400, detail: refusal) : Results.Ok(CheckPointAnswer.Of(test));
        });
}

/// <summary>A measured line. Bearing clockwise from the north of the projected CRS; lengths are null where the projection is not conformal.</summary>
internal sealed record LineAnswer(double SiteGridMetres, double? ProjectedMetres, double? EllipsoidMetres, double? GroundMetres, double? MeanScale, double GridBearingDegrees, double GridConvergenceDegrees)
{
    public static LineAnswer Of(MeasuredLine line) => new(
        line.SiteMetres, line.Ground?.GridMetres, line.Ground?.EllipsoidMetres, line.Ground?.GroundMetres, line.Ground?.MeanScale, line.GridBearingDegrees, line.From!.Distortion.ConvergenceDegrees);
}

/// <summary>A check-point test: measured minus expected.</summary>
internal sealed record CheckPointAnswer(string Mark, double EastMetres, double NorthMetres, double LengthMetres, double StandardDeviationMetres, double Statistic, double Limit, bool Agrees, string? LooksLike)
{
    public static CheckPointAnswer Of(CheckPointTest test) => new(
        test.Known!.Name, test.Difference!.EastMetres, test.Difference.NorthMetres, test.Difference.LengthMetres, test.DeviationMetres,
        test.Difference.Statistic, ControlPointMovement.Limit, !test.Difference.HasMoved, test.LooksLike);
}

/// <summary>A projected CRS as tried.</summary>
internal sealed record CrsAnswer(
    string Name, int? EpsgCode, string Method, string FirstAxis, string FirstAxisDirection, string SecondAxis, string SecondAxisDirection, string Unit, double UnitMetres,
    string PrimeMeridian, double PrimeMeridianDegrees, string GeographicSystem, string Datum, string? Caution)
{
    public static CrsAnswer Of(CrsTrial trial)
    {
        ProjectedCrs crs = trial.Crs!;
        return new(
            crs.Name, crs.EpsgCode == 0 ? null : crs.EpsgCode, crs.Projection.MethodName,
            crs.FirstAxis.Name, crs.FirstAxis.Direction.ToString().ToLowerInvariant(), crs.SecondAxis.Name, crs.SecondAxis.Direction.ToString().ToLowerInvariant(), crs.Unit.Name, crs.Unit.Metres,
            crs.PrimeMeridian.Name, crs.PrimeMeridian.GreenwichLongitudeDegrees, crs.GeographicName, crs.DatumName, trial.Caution);
    }
}
