using System.Globalization;
using SiteProgress.Jobs.Senders;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Senders;

/// <summary>Where machines send installations and logs.</summary>
internal sealed class SentInstallations : IEndpoints
{
    public void Map(IEndpointRouteBuilder app, RouteGroupBuilder api)
    {
        app.MapPost("/api/v1/sites/{site}/sent/logs", TakeAsync)
            .AllowAnonymous()
            .WithName("SendLogs")
            .WithSummary(
                "Takes logs of piles from a machine by its own key: JSON, a list of values a channel, or a text table, a sample a row; one log or several. A log is joined to its installation by "
                + "barge, casing and time. Known by barge and the sender's own identifier (record), it is recorded once however often it is sent, in either form. A row of the answer is a log, at the line of its first sample or, of JSON, at its place in the list.")
            .WithDescription(LogForm)
            .Produces<SentAnswer>().Produces<SentAnswer>(422).ProducesProblem(401).ProducesProblem(413).ProducesProblem(415).ProducesProblem(429).ProducesProblem(503);

        // Beside the group of people's programs: a machine has neither cookie nor personal token, and no anti-forgery value.
        app.MapPost("/api/v1/sites/{site}/sent/installations", TakeAsync)
            .AllowAnonymous() // No Accepts here: routing would answer another kind by itself, and that answer asks for a sign-in.
            .WithName("SendInstallations")
            .WithSummary(
                "Takes installations from a machine by its own key, and records them at once: JSON, or a text table as people send it. Known by barge and "
                + "the sender's own identifier (record), a record is recorded once however often it is sent. The answer says what became of each row.")
            .Produces<SentAnswer>().Produces<SentAnswer>(422).ProducesProblem(401).ProducesProblem(413).ProducesProblem(415).ProducesProblem(429).ProducesProblem(503);
    }

    private const string LogForm =
        """
        In JSON a log is an object, and several are a list. Once for the whole log: `record`, `barge`, `casing`, and `pileNo` where it is known. Its times are `time`, a list of
        times with their offset, or `firstSample` and `seconds`, a list of seconds after it. Each channel is a list as long as these, with null where nothing was read:
        `casingTipLevel` (metres above the site's level datum), or `casingTipBelowWater` with `waterLevel`; `sandAboveTip`, `sandBelowCasingTop` or `sandLevel` (metres);
        `airPressure` (kPa above atmosphere), `hammerLoad`, `inclinationX`, `inclinationY` (degrees), `charge` (cubic metres since the sample before), `valveOpen` (1 or 0).
        A log with anything wrong in it is not taken, and the answer names the member and the index, from 0, of each value at fault.
        """;

    private static Task<IResult> TakeAsync(HttpContext http, string site, SenderDoor door, TakeInstallations take, TimeProvider time)
    {
        if (FormOf(http.Request) is not { } form)
            return Task.FromResult(SenderDoor.Refuse(StatusCodes.Status415UnsupportedMediaType, "Send application/json, text/csv, text/tab-separated-values or text/plain, without a content encoding."));
        return door.AskAsync(http, site, async (permit, bytes) =>
        {
            string moment = time.GetUtcNow().ToString("yyyy-MM-dd'T'HH-mm-ss'Z'", CultureInfo.InvariantCulture);

            // Once all has arrived it is recorded, whether or not the sender still waits: it may send again and will be told.
            SentAnswer answer = await take.RunAsync(permit, form, $"{permit.Sender} {moment}.{(form is SentForm.Json ? "json" : "csv")}", bytes, CancellationToken.None);
            if (answer.Later is { } later)
            {
                http.Response.Headers.RetryAfter = "600";
                return SenderDoor.Refuse(StatusCodes.Status503ServiceUnavailable, later);
            }

            return answer.WholeRefused ? Results.Json(answer, statusCode: StatusCodes.Status422UnprocessableEntity) : Results.Ok(answer);
        });
    }

    private static SentForm? FormOf(HttpRequest request)
    {
        if (!string.IsNullOrEmpty(request.Headers.ContentEncoding)) return null;
        return request.ContentType?.Split(';')[0].Trim().ToLowerInvariant() switch
        {
            "application/json" => SentForm.Json,
            "text/csv" or "text/plain" or "text/tab-separated-values" => SentForm.Text,
            _ => null,
        };
    }
}
