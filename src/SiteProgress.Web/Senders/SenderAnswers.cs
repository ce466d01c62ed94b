using NodaTime;
using SiteProgress.Exchange;
using SiteProgress.Jobs.Senders;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Senders;

/// <summary>The senders of a site for people's programs, and rows not taken as a table.</summary>
internal sealed class SenderAnswers : IEndpoints
{
    public void Map(IEndpointRouteBuilder app, RouteGroupBuilder api)
    {
        api.MapGet("/sites/{site}/senders", (HttpContext http, string site, ReadSenders job) => Api.AskAsync(http, site, job.RunAsync))
            .WithName("Senders").WithSummary("Keys of senders, rows that could not be taken, and corrections of clocks. Instants are UTC.").Produces<SendersView>();
        app.MapGet("/sites/{site}/senders/not-taken.csv", (HttpContext http, string site, ReadSenders job) =>
            Api.AskAsync(http, site, async (permit, cancellation) => TableAnswer.Of($"{site}-not-taken.csv", Write, await job.RunAsync(permit, cancellation)))).ExcludeFromDescription();
    }

    private static void Write(TableWriter table, SendersView view)
    {
        DateTimeZone zone = new SiteTime(view.TimeZone).Zone;
        table.Header("Came", "Sender", "Batch", "Row", "Record", "Column", "Found", "Expected");
        foreach (NotTakenRow row in view.NotTaken)
        {
            table.Time(row.At, zone).Text(row.Sender).Whole(row.Batch).Whole(row.Problem.Row > 0 ? row.Problem.Row : null)
                .Text(row.Problem.RecordId).Text(row.Problem.Column).Text(row.Problem.Found).Text(row.Problem.Expected).EndRow();
        }
    }
}
