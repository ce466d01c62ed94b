using SiteProgress.Core.Forecast;
using SiteProgress.Exchange;
using SiteProgress.Jobs.Progress;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Progress;

/// <summary>Standing, hours and forecast for programs, and as tables.</summary>
internal sealed class ProgressEndpoints : IEndpoints
{
    /// <inheritdoc />
    public void Map(IEndpointRouteBuilder app, RouteGroupBuilder api)
    {
        api.MapGet("/sites/{site}/standing", (HttpContext http, string site, string? from, string? to, ReadProgress read) =>
                Unread(from, to) ?? Api.AskAsync(http, site, (permit, cancellation) => read.RunAsync(permit, ShowDay.FromAddress(from), ShowDay.FromAddress(to), cancellation)))
            .Produces<ProgressView>().WithName("Standing").WithSummary("Planned and built curves by zone, production, hours and cycle times of a period.");
        api.MapGet("/sites/{site}/forecast", (HttpContext http, string site, string? by, ForecastFinish forecast) =>
                Unread(by, null) ?? Api.AskAsync(http, site, (permit, cancellation) => forecast.RunAsync(permit, ShowDay.FromAddress(by), ForecastFinish.Depth.Whole, cancellation)))
            .Produces<ForecastView>().WithName("Forecast").WithSummary("When the work is done (P10, P50, P90), the chance of a day, which assumption moves it, and what it would have said before.");
        api.MapGet("/sites/{site}/curves.csv", (HttpContext http, string site, ReadProgress read) =>
                Api.AskAsync(http, site, async (permit, cancellation) => await read.RunAsync(permit, null, null, cancellation) is { } view ? TableAnswer.Of($"{permit.SiteCode}-curves.csv", Curves, view) : null))
            .Produces<string>(contentType: TableAnswer.ContentType).WithName("CurvesTable").WithSummary("Planned and built piles, cumulative, by zone and day.");
        api.MapGet("/sites/{site}/hours.csv", (HttpContext http, string site, string? from, string? to, ReadProgress read) =>
                Unread(from, to) ?? Api.AskAsync(http, site, async (permit, cancellation) =>
                    await read.RunAsync(permit, ShowDay.FromAddress(from), ShowDay.FromAddress(to), cancellation) is { } view ? TableAnswer.Of($"{permit.SiteCode}-hours.csv", Hours, view) : null))
            .Produces<string>(contentType: TableAnswer.ContentType).WithName("HoursTable").WithSummary("Hours by barge, kind, activity, cause and bearer.");
        api.MapGet("/sites/{site}/forecast-past.csv", (HttpContext http, string site, ForecastFinish forecast) =>
                Api.AskAsync(http, site, async (permit, cancellation) =>
                    await forecast.RunAsync(permit, null, ForecastFinish.Depth.Whole, cancellation) is { } view ? TableAnswer.Of($"{permit.SiteCode}-forecast-past.csv", Past, view.Past) : null))
            .Produces<string>(contentType: TableAnswer.ContentType).WithName("ForecastPastTable").WithSummary("What the forecast would have said each past week, and what was done.");
    }

    private static Task<IResult>? Unread(string? from, string? to)
        => AskedParts.Refusal(AskedParts.Day("from", from), AskedParts.Day("to", to)) is { } refusal ? Task.FromResult(refusal) : null;

    private static void Curves(TableWriter table, ProgressView view)
    {
        table.Header("Zone", "Day", "Planned piles", "Built piles");
        foreach (ZoneStanding zone in view.Zones)
        {
            var built = zone.Built.ToDictionary(one => one.Day, one => one.Piles);
            var planned = zone.Planned.ToDictionary(one => one.Day, one => one.Piles);
            foreach (DateOnly day in built.Keys.Union(planned.Keys).Order())
                table.Text(zone.Zone.Length > 0 ? zone.Zone : "whole site").Text(ShowDay.InAddress(day)).Number(planned.TryGetValue(day, out double due) ? due : null, 1).Number(built.TryGetValue(day, out double done) ? done : null, 0).EndRow();
        }
    }

    private static void Hours(TableWriter table, ProgressView view)
    {
        table.Header("Barge", "Kind", "Activity", "Cause", "Borne by", "Hours [h]");
        foreach (CauseHours one in view.HoursByCause)
            table.Text(one.Barge).Text(ProgressWords.Of(one.Kind)).Text(one.Activity).Text(one.Cause).Text(one.BorneBy).Number((double)one.Hours, 2).EndRow();
    }

    private static void Past(TableWriter table, IReadOnlyList<BackTestWeek> past)
    {
        table.Header("After", "Finish P10", "Finish P50", "Finish P90", "Set-ups in four weeks P10", "P50", "P90", "Done");
        foreach (BackTestWeek week in past)
        {
            table.Text(ShowDay.InAddress(week.Day.ToDateOnly())).Text(Day(week.Finish.P10)).Text(Day(week.Finish.P50)).Text(Day(week.Finish.P90))
                .Whole(week.FewSetUps).Whole(week.MiddleSetUps).Whole(week.ManySetUps).Whole(week.DoneSetUps).EndRow();
        }
    }

    private static string? Day(NodaTime.LocalDate? day) => day is { } date ? ShowDay.InAddress(date.ToDateOnly()) : null;
}
