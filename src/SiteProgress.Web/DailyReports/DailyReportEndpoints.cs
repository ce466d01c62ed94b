using SiteProgress.Exchange;
using SiteProgress.Jobs.DailyReports;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.DailyReports;

/// <summary>The daily report for programs, and as a table.</summary>
internal sealed class DailyReportEndpoints : IEndpoints
{
    /// <inheritdoc />
    public void Map(IEndpointRouteBuilder app, RouteGroupBuilder api)
    {
        api.MapGet("/sites/{site}/daily-report", (HttpContext http, string site, string? day, int? issue, ReadDailyReport read) =>
                Unread(day) ?? Api.AskAsync(http, site, (permit, cancellation) => read.RunAsync(permit, ShowDay.FromAddress(day), issue, cancellation)))
            .Produces<DailyReportView>().WithName("DailyReport").WithSummary("The daily report of a working day: the issue asked for, the last one, or (issue 0) what an issue made now would say.");
        api.MapGet("/sites/{site}/daily-report.csv", (HttpContext http, string site, string? day, int? issue, ReadDailyReport read) =>
                Unread(day) ?? Api.AskAsync(http, site, async (permit, cancellation) => await read.RunAsync(permit, ShowDay.FromAddress(day), issue, cancellation) is { } report
                    ? TableAnswer.Of($"{permit.SiteCode}-daily-report-{ShowDay.InAddress(report.Day)}.csv", Lines, report)
                    : null))
            .Produces<string>(contentType: TableAnswer.ContentType).WithName("DailyReportTable").WithSummary("The same as a table, one line a cell.");
    }

    private static Task<IResult>? Unread(string? day) => AskedParts.Refusal(AskedParts.Day("day", day)) is { } refusal ? Task.FromResult(refusal) : null;

    private static void Lines(TableWriter table, DailyReportView report)
    {
        table.Header("Section", "Line", "Column", "Value");
        foreach (ReportLine line in report.Shown.Lines)
        {
            ReportWords.SectionWords words = ReportWords.Of(line.Section);
            foreach ((string head, string cell) in words.Heads.Zip(line.Cells)) table.Text(words.Title).Text(line.Name).Text(head).Text(cell).EndRow();
        }
    }
}
