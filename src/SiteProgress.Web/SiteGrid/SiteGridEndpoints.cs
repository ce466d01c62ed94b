using System.Globalization;
using Microsoft.AspNetCore.Antiforgery;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.SiteGrid;
using SiteProgress.Web.Shell;
using Frame = SiteProgress.Core.Piles.Frame;

namespace SiteProgress.Web.SiteGrid;

/// <summary>The site grid and its conversions for programs and as files.</summary>
internal sealed class SiteGridEndpoints : IEndpoints
{
    public void Map(IEndpointRouteBuilder app, RouteGroupBuilder api)
    {
        app.MapGet("/sites/{site}/site-grid/control-points.csv", (HttpContext http, string site, ReadSiteGrid job) =>
            Api.AskAsync(http, site, async (permit, cancellation) =>
                await job.RunAsync(permit, cancellation) is { } grid ? Marks(site, grid) : Results.NotFound())).ExcludeFromDescription();
        app.MapPost("/sites/{site}/site-grid/converted.csv", ListAsync).ExcludeFromDescription();
        app.MapGet("/sites/{site}/site-grid/converted.csv", (string site) => Results.LocalRedirect($"/sites/{Uri.EscapeDataString(site)}/site-grid/convert")).ExcludeFromDescription();
        app.MapGet("/sites/{site}/site-grid/observations.csv", (HttpContext http, string site, ReadObservations job) =>
            Api.AskAsync(http, site, async (permit, cancellation) =>
                await job.RunAsync(permit, cancellation) is { } marks ? TableAnswer.Of($"{site}-control-point-observations.csv", ObservationRows.Write, marks) : Results.NotFound())).ExcludeFromDescription();
        app.MapPost("/sites/{site}/site-grid/proposal-piles.csv", ProposalPilesAsync).ExcludeFromDescription();
        app.MapGet("/sites/{site}/site-grid/proposal-piles.csv", (string site) => Results.LocalRedirect($"/sites/{Uri.EscapeDataString(site)}/site-grid/new-adjustment")).ExcludeFromDescription();
        api.MapGet("/sites/{site}/site-grid", (HttpContext http, string site, ReadSiteGrid job) =>
            Api.AskAsync(http, site, async (permit, cancellation) => await job.RunAsync(permit, cancellation) is { } grid ? SiteGridAnswer.Of(grid) : null))
            .WithName("SiteGrid").WithSummary("The adjustment of the site grid in force, its control points with residuals, and the projected CRS.")
            .Produces<SiteGridAnswer>().ProducesProblem(404);
        api.MapGet("/sites/{site}/site-grid/marks", (HttpContext http, string site, ReadObservations job) =>
            Api.AskAsync(http, site, async (permit, cancellation) => await job.RunAsync(permit, cancellation) is { } marks ? MarksAnswer.Of(marks) : null))
            .WithName("ControlPointsOverTime").WithSummary("The control points in force with what was observed of each since: difference, test of movement, who recorded it.")
            .Produces<MarksAnswer>().ProducesProblem(404);
        api.MapGet("/sites/{site}/site-grid/shifts", (HttpContext http, string site, ReadSiteGrid job) =>
            Api.AskAsync(http, site, async (permit, cancellation) => await job.RunAsync(permit, cancellation) is { } grid ? grid.Datums.Select(LinkedAnswer.Of).ToArray() : null))
            .WithName("DatumShifts").WithSummary("The published shifts between the site's datum and others, each with its name and stated accuracy; none is ever applied unless a call names it.")
            .Produces<LinkedAnswer[]>().ProducesProblem(404);
        api.MapPost("/sites/{site}/site-grid/proposals", ProposeAsync)
            .WithName("ProposeAdjustment").WithSummary("Works a new adjustment out of a list of control points (text with a header) and says what adopting it would change. Records nothing. Needs the surveyor's role.")
            .Produces<ProposalAnswer>().ProducesProblem(400).ProducesProblem(403).ProducesProblem(404);
        api.MapPost("/sites/{site}/convert", ConvertAsync)
            .WithName("Convert").WithSummary("Puts points from one frame of the site (siteGrid, projectedCrs, geographic, or otherDatum with the EPSG code of a shift) into all. Metres, and degrees with latitude first; at most 100000 points, more go through convert/stream.")
            .Produces<ConvertAnswer>().ProducesProblem(400).ProducesProblem(404);
    }

    private static Task<IResult> ConvertAsync(HttpContext http, string site, ConvertRequest request, ConvertPoints job)
        => Api.AskAsync(http, site, async (permit, cancellation) =>
        {
            if (ConvertRequest.FrameOf(request.From) is not { } frame)
                return Results.Problem(statusCode: 400, detail: "Say from which frame: siteGrid, projectedCrs, geographic or otherDatum.");
            if (request.Points is not { } points) return Results.Problem(statusCode: 400, detail: "There are no points.");
            if (points.Count > ConvertPoints.MostPoints) return Results.Problem(statusCode: 400, detail: $"{points.Count} points were sent; one call takes {ConvertPoints.MostPoints}.");
            int wrong = points.ToList().FindIndex(point => point is not { Length: 2 });
            if (wrong >= 0) return Results.Problem(statusCode: 400, detail: $"Point {wrong + 1} does not have two numbers.");
            Conversion? conversion = await job.WithDatumAsync(
                permit, [.. points.Select(point => new RecordedPosition(frame, point![0], point[1]))], request.Shift, request.From == ConvertRequest.OtherDatum, cancellation);
            return conversion is null ? Results.NotFound() : Results.Ok(ConvertAnswer.Of(conversion));
        });

    private static async Task<IResult> ListAsync(HttpContext http, string site, ConvertPoints convert, ReadSiteGrid read, IAntiforgery antiforgery)
    {
        if (!http.Request.HasFormContentType || !await antiforgery.IsRequestValidAsync(http))
            return Results.Text("This form is no longer valid. Go back, read the page again and send it once more.", "text/plain; charset=utf-8", statusCode: StatusCodes.Status400BadRequest);
        IFormCollection form = await http.Request.ReadFormAsync(http.RequestAborted);
        PointListEntry entry = new() { From = form["List.From"], Text = form["List.Text"], File = form.Files["List.File"], Shift = form["List.Shift"] };
        if (await entry.TakeFileAsync(http.RequestAborted) is { } problem) return Results.Text(problem, "text/plain; charset=utf-8", statusCode: StatusCodes.Status400BadRequest);
        IReadOnlyList<PointLine> lines = PointText.ReadList(FrameWords.FromAddress(entry.From), entry.Text ?? "", PointListEntry.MostLines);
        return await Api.AskAsync(http, site, async (permit, cancellation) =>
        {
            if (await read.RunAsync(permit, cancellation) is not { } grid) return Results.NotFound();
            Conversion? conversion = await convert.WithDatumAsync(
                permit, [.. lines.Where(line => line.Point is not null).Select(line => line.Point!.Value)], FrameWords.Shift(entry.Shift), entry.From == FrameWords.OtherDatum, cancellation);
            return Converted(site, grid, conversion?.Link, PointListRow.Join(lines, conversion));
        });
    }

    private static async Task<IResult> ProposalPilesAsync(HttpContext http, string site, ProposeAdjustment propose, IAntiforgery antiforgery)
    {
        if (!http.Request.HasFormContentType || !await antiforgery.IsRequestValidAsync(http))
            return Results.Text("This form is no longer valid. Go back, read the page again and send it once more.", "text/plain; charset=utf-8", statusCode: StatusCodes.Status400BadRequest);
        IFormCollection form = await http.Request.ReadFormAsync(http.RequestAborted);
        ProposalEntry entry = new()
        {
            Marks = form["Proposed.Marks"], Kind = form["Proposed.Kind"], FixedScale = form["Proposed.FixedScale"], Axes = form["Proposed.Axes"], Deviation = form["Proposed.Deviation"], Crs = form["Proposed.Crs"],
        };
        (AdjustmentProposal? proposal, string? problem) = entry.Read();
        if (proposal is null) return Results.Text(problem, "text/plain; charset=utf-8", statusCode: StatusCodes.Status400BadRequest);
        return await Api.AskAsync(http, site, async (permit, cancellation) => await propose.RunAsync(permit, proposal, cancellation) is { Effect: { } effect }
            ? TableAnswer.Of($"{site}-proposed-adjustment-piles.csv", EffectRows.Write, effect)
            : Results.Text("The proposal has no fit; the page says why.", "text/plain; charset=utf-8", statusCode: StatusCodes.Status400BadRequest));
    }

    private static Task<IResult> ProposeAsync(HttpContext http, string site, ProposalRequest request, ProposeAdjustment job)
        => Api.AskAsync(http, site, async (permit, cancellation) =>
        {
            ProposalEntry entry = new()
            {
                Marks = request.ControlPoints, Kind = request.Kind ?? "similarity", Axes = request.LeftHanded ? "left" : "right",
                FixedScale = request.FixedScale?.ToString("R", CultureInfo.InvariantCulture), Deviation = (request.StandardDeviationMetres ?? 0.005).ToString("R", CultureInfo.InvariantCulture),
            };
            (AdjustmentProposal? proposal, string? problem) = entry.Read();
            if (proposal is null)
            {
                permit.Demand(Right.KeepSurvey);
                return Results.Problem(statusCode: 400, detail: problem);
            }

            return await job.RunAsync(permit, proposal, cancellation) is { } worked ? Results.Ok(ProposalAnswer.Of(worked)) : Results.NotFound();
        });

    private static IResult Converted(string site, SiteGridRead grid, DatumLink? link, IReadOnlyList<PointListRow> rows) => Table($"{site}-converted.csv", table =>
    {
        table.Header([
            "Line", "Name", $"{grid.Settings.GridAxes.First} [m]", $"{grid.Settings.GridAxes.Second} [m]", "Easting [m]", "Northing [m]",
            "Latitude [deg]", "Longitude [deg]", "Latitude", "Longitude",
            .. link is null ? [] : new[] { $"Latitude {link.Other.Name} [deg]", $"Longitude {link.Other.Name} [deg]", "Shift" },
            "Grid convergence [deg]", "Point scale factor", "Problem"]);
        foreach (PointListRow row in rows)
        {
            PointInFrames? where = row.Converted?.Where;
            table.Whole(row.Line.Line).Text(row.Line.Name)
                .Number(where?.Site.XMetres, 4).Number(where?.Site.YMetres, 4).Number(where?.Projected.EastingMetres, 4).Number(where?.Projected.NorthingMetres, 4)
                .Number(where?.Geographic.LatitudeDegrees, 10).Number(where?.Geographic.LongitudeDegrees, 10)
                .Text(where is null ? null : DegreesMinutesSeconds.FormatLatitude(where.Geographic.LatitudeDegrees))
                .Text(where is null ? null : DegreesMinutesSeconds.FormatLongitude(where.Geographic.LongitudeDegrees));
            if (link is not null)
            {
                table.Number(where?.Other?.LatitudeDegrees, 10).Number(where?.Other?.LongitudeDegrees, 10)
                    .Text(string.Create(CultureInfo.InvariantCulture, $"{link.Shift.Name}, EPSG:{link.Shift.EpsgCode}, {link.Shift.AccuracyMetres} m"));
            }

            table.Number(where?.Distortion.ConvergenceDegrees, 8).Number(where?.Distortion.PointScaleFactor, 9)
                .Text(row.Line.Problem ?? row.Converted?.Refusal ?? row.Converted?.Caution).EndRow();
        }
    });

    private static IResult Marks(string site, SiteGridRead grid) => Table($"{site}-control-points.csv", table =>
    {
        table.Header(
            "Name", $"{grid.Settings.GridAxes.First} [m]", $"{grid.Settings.GridAxes.Second} [m]", "Easting [m]", "Northing [m]", "Standard deviation [m]",
            "Residual east [m]", "Residual north [m]", "Redundancy number", "Largest w");
        for (int index = 0; index < grid.Adopted.Body.ControlPoints.Count; index++)
        {
            ControlPoint mark = grid.Adopted.Body.ControlPoints[index];
            ControlPointResidual? residual = grid.Quality?.Residuals[index];
            table.Text(mark.Name).Number(mark.Site.XMetres, 4).Number(mark.Site.YMetres, 4)
                .Number(mark.Projected.EastingMetres, 4).Number(mark.Projected.NorthingMetres, 4).Number(mark.StandardDeviationMetres, 4)
                .Number(residual?.EastMetres, 4).Number(residual?.NorthMetres, 4).Number(residual?.RedundancyNumber, 3).Number(residual?.LargestW, 2).EndRow();
        }
    });

    private static IResult Table(string fileName, Action<TableWriter> write) => TableAnswer.Of(fileName, (TableWriter table, Action<TableWriter> rows) => rows(table), write);
}
