using System.Globalization;
using NodaTime;
using NodaTime.Text;
using SiteProgress.Core.Ground;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Exchange;
using SiteProgress.Jobs.RecordsIn;
using SiteProgress.Web.Shell;
using Frame = SiteProgress.Core.Piles.Frame;

namespace SiteProgress.Web.RecordsIn;

/// <summary>What can be taken away from records in: lists, problems and rows as tables, and files as they came in.</summary>
internal sealed class Downloads : IEndpoints
{
    public void Map(IEndpointRouteBuilder app, RouteGroupBuilder api)
    {
        app.MapGet("/sites/{site}/records-in.csv", (HttpContext http, string site, ReadBatches job) =>
            Api.AskAsync(http, site, async (permit, cancellation) => Batches(site, await job.RunAsync(permit, cancellation)))).ExcludeFromDescription();
        app.MapGet("/sites/{site}/records-in/{upload:guid}/problems.csv",
            (HttpContext http, string site, Guid upload, PreviewUpload job) =>
            Api.AskAsync(http, site, async (permit, cancellation) =>
                await job.RunAsync(permit, upload, Choices.Read(http.Request.Query), cancellation) is { } preview ? Problems(preview) : Results.NotFound())).ExcludeFromDescription();
        app.MapGet("/sites/{site}/records-in/{upload:guid}/difference.csv",
            (HttpContext http, string site, Guid upload, PreviewUpload job) =>
            Api.AskAsync(http, site, async (permit, cancellation) =>
                await job.RunAsync(permit, upload, Choices.Read(http.Request.Query), cancellation) is { Difference: { } difference } preview
                    ? TableAnswer.Of(Path.GetFileNameWithoutExtension(preview.FileName) + "-difference.csv", (table, rows) => DesignWords.Table(table, rows, null), difference)
                    : Results.NotFound())).ExcludeFromDescription();
        app.MapGet("/sites/{site}/records-in/{batch:long}/rows.csv", (HttpContext http, string site, long batch, ReadBatch job) =>
            Api.AskAsync(http, site, async (permit, cancellation) =>
                await job.RunAsync(permit, batch, waitingOnly: false, 0, ReadBatch.MostRows, cancellation) is { } read ? Rows(site, read) : Results.NotFound())).ExcludeFromDescription();
        app.MapGet("/sites/{site}/records-in/{batch:long}/file", (HttpContext http, string site, long batch, OpenRawFile job) =>
            Api.AskAsync(http, site, async (permit, cancellation) =>
                await job.RunAsync(permit, batch, cancellation) is { } file
                    ? Results.Stream(file.Bytes, "application/octet-stream", file.FileName)
                    : Results.NotFound())).ExcludeFromDescription();
    }

    private static IResult Batches(string site, RecordsInList list) => Table($"{site}-batches.csv", table =>
    {
        DateTimeZone zone = new SiteTime(list.TimeZone).Zone;
        table.Header("Batch", "Recorded", "By", "File", "What", "Rows", "Left out", "To decide", "Withdrawn", "Withdrawn by", "Reason", "SHA-256");
        foreach (BatchSummary batch in list.Batches)
        {
            table.Whole(batch.Batch).Time(batch.RecordedAt, zone).Text(batch.RecordedBy).Text(batch.FileName).Text(Choices.Words(batch.Content))
                .Whole(batch.RowsRecorded).Whole(batch.LinesLeftOut.Count).Whole(batch.Waiting)
                .Time(batch.Withdrawal?.At, zone).Text(batch.Withdrawal?.By).Text(batch.Withdrawal?.Reason).Text(batch.Sha256).EndRow();
        }
    });

    private static IResult Problems(UploadPreview preview) => Table(Path.GetFileNameWithoutExtension(preview.FileName) + "-problems.csv", table =>
    {
        table.Header("Line", "Column", "Found", "Expected");
        foreach (ImportProblem problem in preview.Problems)
            table.Whole(problem.Line > 0 ? problem.Line : null).Text(problem.Column).Text(problem.Found).Text(problem.Expected).EndRow();
    });

    private static IResult Rows(string site, BatchRead read) => Table(string.Create(CultureInfo.InvariantCulture, $"{site}-batch-{read.Summary.Batch}.csv"), table =>
    {
        DateTimeZone zone = new SiteTime(read.Settings.TimeZone).Zone;
        switch (read.Summary.Content)
        {
            case BatchContent.PlannedPiles:
                table.Header("Line", "Pile No", "Zone", "Frame", "First coordinate", "Second coordinate", "Diameter [m]", "Top level [m]", "Tip level [m]", "Min length [m]", "Remark");
                break;
            case BatchContent.Installations:
                table.Header(
                    "Line", "Record", "Pile No", "Adopted pile", "Against the design", "Distance to named pile [m]", "Nearest pile", "Distance to nearest pile [m]",
                    "Barge", "Casing", "Set-up", "Start", "End penetration", "End", "Frame", "First coordinate", "Second coordinate",
                    "Top level [m]", "Tip level [m]", "Sand in casing [m3]", "Inclination [deg]", "Fix", "Uncertainty [m]", "Outcome", "Remark");
                break;
            case BatchContent.PenetrationTests:
                table.Header(
                    "Line", "Borehole", "Frame", "First coordinate", "Second coordinate", "Ground level [m]", "Test depth [m]", "N value",
                    "Seating blows", "Main blows", "Penetration mm", "Energy ratio [%]", "Test type", "Reported result", "Remark", "Tested on");
                break;
            case BatchContent.SandDeliveries:
                table.Header("Line", "Time", "Entry", "Ticket", "Source", "Barge", "Volume, loose [m3]", "Remark");
                break;
            case BatchContent.Calibrations:
                table.Header("Line", "Barge", "Casing", "Valid from", "Forward [m]", "Starboard [m]", "Inner area [m2]", "Evidence");
                break;
            case BatchContent.WaterLevels:
                table.Header("Line", "Gauge", "Time", "Water level [m]");
                break;
            case BatchContent.SeabedSoundings:
                table.Header("Line", "Survey", "Surveyed on", "Frame", "First coordinate", "Second coordinate", "Seabed level [m]");
                break;
            case BatchContent.PileLogs:
                table.Header("Line", "Record", "Pile No", "Barge", "Casing", "First sample", "Last sample", "Samples", "Against the installations", "Installation", "Disagrees", "Adopted pile", "SHA-256");
                break;
            case BatchContent.DiaryEntries:
                table.Header("Line", "Working day", "Barge", "Activity", "Cause", "Borne by", "Hours [h]", "Remark");
                break;
            case BatchContent.PlannedProgress:
                table.Header("Line", "Day", "Zone", "Planned piles cumulative");
                break;
            default:
                table.Header(
                    "Line", "Time", "Barge", "Casing", "Pile No", "Frame", "First coordinate recorded", "Second coordinate recorded",
                    "First coordinate measured", "Second coordinate measured", "Method", "Uncertainty [m]");
                break;
        }

        foreach (BatchLine row in read.Rows.Where(row => row.Body is WaterLevelsBody)) Readings(table, row, ((WaterLevelsBody)row.Body).Levels, zone);
        foreach (BatchLine row in read.Rows.Where(row => row.Body is SeabedSurveyedBody)) Soundings(table, row, ((SeabedSurveyedBody)row.Body).Survey);
        foreach (BatchLine row in read.Rows.Where(row => row.Body is not (WaterLevelsBody or SeabedSurveyedBody))) Row(table.Whole(row.Line), row, zone).EndRow();
    });

    private static void Readings(TableWriter table, BatchLine row, WaterLevels levels, DateTimeZone zone)
    {
        foreach (double[] reading in levels.Readings)
            table.Whole(row.Line).Text(levels.Gauge).Time(levels.From + Duration.FromSeconds(reading[0]), zone).Number(reading[1], 3).EndRow();
    }

    private static void Soundings(TableWriter table, BatchLine row, SeabedSoundings survey)
    {
        foreach (double[] sounding in survey.Soundings)
        {
            Position(table.Whole(row.Line).Text(survey.Survey).Text(LocalDatePattern.Iso.Format(survey.SurveyedOn)).Text(FrameWord(survey.Frame)), new RecordedPosition(survey.Frame, sounding[0], sounding[1]))
                .Number(sounding[2], 3).EndRow();
        }
    }

    private static TableWriter Row(TableWriter table, BatchLine row, DateTimeZone zone) => row.Body switch
    {
        PilePlannedBody { Pile: var pile } => Position(table.Text(pile.Number).Text(pile.Zone).Text(FrameWord(pile.Position.Frame)), pile.Position)
            .Number(pile.DiameterMetres, 2).Number(pile.TopLevelMetres, 2).Number(pile.TipLevelMetres, 2).Number(pile.LeastLengthMetres, 2).Text(pile.Remark),
        PileInstalledBody { Installation: var built } => Installed(table, built, row.Match, zone),
        DiaryLineBody { Entry: var entry } => table.Text(LocalDatePattern.Iso.Format(entry.WorkingDay)).Text(entry.Barge).Text(entry.Activity).Text(entry.Cause)
            .Text(entry.BorneBy).Number((double)entry.Hours, 2).Text(entry.Remark),
        ProgressPlannedBody { Planned: var planned } => table.Text(LocalDatePattern.Iso.Format(planned.Day)).Text(planned.Zone).Whole(planned.CumulativePiles),
        PositionCheckedBody { Measurement: var check } => Position(
            Position(table.Time(check.At, zone).Text(check.Barge).Whole(check.Casing).Text(check.PileNumber).Text(FrameWord(check.Recorded.Frame)), check.Recorded), check.Measured)
            .Text(check.Method).Number(check.UncertaintyMetres, 3),
        PenetrationTestedBody { Test: var test } => Position(table.Text(test.Location).Text(test.Position is { } at ? FrameWord(at.Frame) : null), test.Position)
            .Number(test.GroundLevelMetres, 2).Number(test.TopDepthMetres, 2).Whole(test.Blows).Whole(test.SeatingBlows).Whole(test.MainBlows)
            .Whole(test.PenetrationMillimetres).Number(test.EnergyRatioPercent, 0).Text(test.Type).Text(test.Reported).Text(test.Remark)
            .Text(test.TestedOn is { } day ? LocalDatePattern.Iso.Format(day) : null),
        PileLoggedBody { Log: var log } => table.Text(log.RecordId).Text(log.PileNumber).Text(log.Barge).Whole(log.Casing).Time(log.FirstSample, zone).Time(log.LastSample, zone)
            .Whole(log.Samples).Text(row.Log is { } joined ? RecordWords.Of(joined.Outcome) : "withdrawn").Whole(row.Log?.Installation).Text(row.Log?.Against).Text(row.Log?.Pile).Text(log.Sha256),
        CalibratedBody { Calibration: var one } => table.Text(one.Barge).Whole(one.Casing).Time(one.ValidFrom, zone).Number(one.ForwardMetres, 3).Number(one.StarboardMetres, 3)
            .Number(one.InnerAreaSquareMetres, 4).Text(one.Evidence),
        SandDeliveredBody { Delivery: var sand } => table.Time(sand.At, zone).Text(RecordWords.Of(sand.Entry)).Text(sand.Ticket).Text(sand.Source).Text(sand.Barge)
            .Number(sand.CubicMetres, 1).Text(sand.Remark),
        _ => table,
    };

    private static TableWriter Installed(TableWriter table, Installation built, InstallationMatch? match, DateTimeZone zone)
    {
        RecordedPosition? position = built.AtEndOfPenetration ?? built.TouchDown;
        table.Text(built.RecordId).Text(built.PileNumber).Text(match?.Adopted).Text(match is null ? "withdrawn" : TradeWords.Of(match.Outcome))
            .Number(match?.DistanceToNamedMetres, 3).Text(match?.Nearest).Number(match?.DistanceToNearestMetres, 3)
            .Text(built.Barge).Whole(built.Casing).Text(built.SetUp)
            .Time(built.Start, zone).Time(built.EndOfPenetration, zone).Time(built.End, zone);
        return Position(table.Text(position is { } at ? FrameWord(at.Frame) : null), position)
            .Number(built.TopLevelMetres, 2).Number(built.TipLevelMetres, 2).Number(built.SandInCasing, 1).Number(built.InclinationDegrees, 2)
            .Text(RecordWords.Of(built.Fix)).Number(built.UncertaintyMetres, 3).Text(RecordWords.Of(built.Outcome)).Text(built.Remark);
    }

    private static TableWriter Position(TableWriter table, RecordedPosition? position)
    {
        int decimals = position?.Frame == Frame.Geographic ? 8 : 3;
        return table.Number(position?.First, decimals).Number(position?.Second, decimals);
    }

    private static string FrameWord(Frame frame) => Choices.Frames.First(one => one.Value == frame).InAddress;

    private static IResult Table(string fileName, Action<TableWriter> write) => TableAnswer.Of(fileName, (TableWriter table, Action<TableWriter> rows) => rows(table), write);
}
