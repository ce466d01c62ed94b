using SiteProgress.Exchange;
using SiteProgress.Jobs.Today;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Today;

/// <summary>Production and the manager's page for programs, and production as a table.</summary>
internal sealed class TodayEndpoints : IEndpoints
{
    /// <inheritdoc />
    public void Map(IEndpointRouteBuilder app, RouteGroupBuilder api)
    {
        api.MapGet("/sites/{site}/today", (HttpContext http, string site, string? day, ReadToday read) =>
                Read(day) ?? Api.AskAsync(http, site, (permit, cancellation) => read.RunAsync(permit, ShowDay.FromAddress(day), cancellation)))
            .Produces<TodayView>().WithName("Today")
            .WithSummary("A working day and the one before it, counts by state, what is left, what waits, and when barges were last checked.");
        api.MapGet("/sites/{site}/progress", (HttpContext http, string site, string? from, string? to, ReadProduction read) =>
                Read(from, to) ?? Api.AskAsync(http, site, (permit, cancellation) => read.RunAsync(permit, ShowDay.FromAddress(from), ShowDay.FromAddress(to), cancellation)))
            .Produces<IReadOnlyList<ReadProduction.Line>>().WithName("Progress")
            .WithSummary("Piles, metres and sand by working day, shift, barge, casing and zone.");
        api.MapGet("/sites/{site}/progress.csv", (HttpContext http, string site, string? from, string? to, ReadProduction read) =>
                Read(from, to) ?? Api.AskAsync(http, site, async (permit, cancellation) => TableAnswer.Of(
                    $"{permit.SiteCode}-progress.csv", Table, await read.RunAsync(permit, ShowDay.FromAddress(from), ShowDay.FromAddress(to), cancellation))))
            .Produces<string>(contentType: TableAnswer.ContentType).WithName("ProgressTable").WithSummary("The same as a table.");
    }

    private static Task<IResult>? Read(string? day)
        => AskedParts.Refusal(AskedParts.Day("day", day)) is { } refusal ? Task.FromResult(refusal) : null;

    private static Task<IResult>? Read(string? from, string? to)
        => AskedParts.Refusal(AskedParts.Day("from", from), AskedParts.Day("to", to)) is { } refusal ? Task.FromResult(refusal) : null;

    private static void Table(TableWriter table, IReadOnlyList<ReadProduction.Line> lines)
    {
        table.Header(
            "Working day", "Shift", "Barge", "Casing", "Zone", "Attempts", "Piles", "Metres [m]", "Sand in casing [m3]", "Sand in pile [m3]", "Piles with finding");
        foreach (ReadProduction.Line line in lines)
        {
            table.Text(ShowDay.InAddress(line.WorkingDay)).Text(line.Shift).Text(line.Barge).Whole(line.Casing).Text(line.Zone)
                .Whole(line.Attempts).Whole(line.Piles).Number(line.Metres, 2)
                .Number(line.SandInCasingCubicMetres, 1).Number(line.SandInPileCubicMetres, 1).Whole(line.PilesWithFinding).EndRow();
        }
    }
}
