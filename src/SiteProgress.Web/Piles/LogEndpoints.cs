using NodaTime;
using SiteProgress.Core.Levels;
using SiteProgress.Core.Logs;
using SiteProgress.Exchange;
using SiteProgress.Jobs.Attachments;
using SiteProgress.Jobs.Piles;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Piles;

/// <summary>The log of a pile for its chart, for programs and as a table.</summary>
internal sealed class LogEndpoints : IEndpoints
{
    public void Map(IEndpointRouteBuilder app, RouteGroupBuilder api)
    {
        api.MapGet("/sites/{site}/piles/{number}/log", (HttpContext http, string site, string number, ReadPileLog job) =>
                Api.AskAsync(http, site, async (permit, cancellation) =>
                    (await job.RunAsync(permit, number, cancellation)).View is { } view ? LogChartData.Of(view) : null))
            .WithName("PileLog")
            .WithSummary("The samples of the log attached to a pile, a column a channel; what was not read is null.")
            .ProducesProblem(StatusCodes.Status404NotFound);
        api.MapGet("/sites/{site}/piles/{number}/log.csv", (HttpContext http, string site, string number, ReadPileLog job) =>
                Api.AskAsync(http, site, async (permit, cancellation) =>
                    (await job.RunAsync(permit, number, cancellation)).View is { } view ? TableAnswer.Of($"{site}-{number}-log.csv", Write, view) : Results.NotFound()))
            .WithName("PileLogTable")
            .WithSummary("The same samples as a table.")
            .Produces(StatusCodes.Status200OK, contentType: "text/csv");
        api.MapGet("/sites/{site}/piles/{number}/levels", (HttpContext http, string site, string number, ReadPileLevels job) =>
                Api.AskAsync(http, site, async (permit, cancellation) => Results.Ok((await job.RunAsync(permit, number, cancellation)).Select(AnsweredLevels.Of))))
            .WithName("PileLevels")
            .WithSummary("What the levels of a pile's installations rest on: stated, or derived from depths with every number that went into them, and the calibrations in force.")
            .Produces<IEnumerable<AnsweredLevels>>();
    }

    private sealed record AnsweredLevels(
        long Installation, double? TopLevelMetres, double? TipLevelMetres, DerivedLevel? TopDerived, DerivedLevel? TipDerived, long? CasingCalibration, long? BargeCalibration, long? ClockCorrection)
    {
        public static AnsweredLevels Of(LevelsOfAttempt one) => new(
            one.Sequence, one.Taken.TopLevelMetres, one.Taken.TipLevelMetres, one.Derived?.Top, one.Derived?.Tip,
            one.CasingCalibration?.Sequence, one.BargeCalibration?.Sequence, one.Clock?.Record);
    }

    private static void Write(TableWriter table, PileLogView view)
    {
        LogColumns columns = LogColumns.Of(view.Log, view.Context);
        LogChannel[] others = [.. view.Log.Channels.Where(channel => channel is not (LogChannel.Tip or LogChannel.Sand))];
        table.Header([
            "Time", "Seconds", "Tip level [m]", .. columns.SandHeights.Length > 0 ? new[] { "Sand above tip [m]" } : [], .. others.Select(LogWords.Head)]);
        DateTimeZone zone = new SiteTime(view.TimeZone).Zone;
        for (int index = 0; index < view.Log.Count; index++)
        {
            double seconds = columns.Seconds.Span[index];
            table.Time(view.Log.FirstSample + Duration.FromSeconds(seconds), zone).Number(seconds, 2).Number(Read(columns.TipLevels.Span[index]), 3);
            if (columns.SandHeights.Length > 0) table.Number(Read(columns.SandHeights.Span[index]), 3);
            foreach (LogChannel channel in others) table.Number(Read(view.Log.Of(channel)[index]), 3);
            table.EndRow();
        }
    }

    private static double? Read(double value) => double.IsFinite(value) ? value : null;
}
