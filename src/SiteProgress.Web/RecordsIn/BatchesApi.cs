using NodaTime;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Records;
using SiteProgress.Exchange;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.RecordsIn;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.RecordsIn;

/// <summary>Records in for programs.</summary>
internal sealed class BatchesApi : IEndpoints
{
    private static readonly string UnnamedFile = "sent-by-program.csv";

    public void Map(IEndpointRouteBuilder app, RouteGroupBuilder api)
    {
        api.MapGet("/sites/{site}/batches", (HttpContext http, string site, ReadBatches job) =>
            Api.AskAsync(http, site, async (permit, cancellation) => (await job.RunAsync(permit, cancellation)).Batches.Select(Answer).ToArray()))
            .WithName("Batches").WithSummary("What came in: all batches, the latest first, the withdrawn ones too.").Produces<BatchAnswer[]>();
        api.MapGet("/sites/{site}/batches/{batch:long}", (HttpContext http, string site, long batch, ReadBatch job) =>
            Api.AskAsync(http, site, async (permit, cancellation) =>
                await job.RunAsync(permit, batch, waitingOnly: false, 0, ReadBatch.MostRows, cancellation) is { } read ? Answer(read) : null))
            .WithName("Batch").WithSummary("One batch with how each of its installations stands to the design.").Produces<BatchWithRows>().ProducesProblem(404);
        api.MapPost("/sites/{site}/batches", BringInAsync)
            .WithMetadata(new Microsoft.AspNetCore.Mvc.DisableRequestSizeLimitAttribute())
            .WithName("BringIn").WithSummary(
                "Brings one file in and records it, whole or not at all: a form with a file part, or the bare bytes. leaveOutProblems=true records "
                + "the good rows without the lines that cannot be recorded. What the file does not say is said as in the address of the page that shows it: content, frame, "
                + "dates, delimiter, decimals, encoding, table, header, times, north, depths, zero, down; cN and uN for meaning and unit of column N "
                + "from 0; v.COLUMN for a value of all rows. Of planned piles: scope (amends, zones, site: what becomes of piles that are not named), inForce=beginning "
                + "or inForceFrom (site time), revision (the designer's name for it).")
            .Accepts<IFormFile>("multipart/form-data", "text/csv", "application/octet-stream")
            .Produces<BatchAnswer>(201).ProducesProblem(403).ProducesProblem(409).ProducesProblem(413).ProducesProblem(422);
    }

    private static Task<IResult> BringInAsync(
        HttpContext http, string site, string? fileName, bool? leaveOutProblems,
        StoreUpload store, IntakeLimits limits, RecordUpload record, ReadBatch read)
        => Api.AskAsync(http, site, async (permit, cancellation) =>
        {
            permit.Demand(Right.BringIn);
            IncomingFile.ExpectRate(http, limits);
            UploadResult stored;
            try
            {
                IncomingFile? file = IncomingFile.IsForm(http.Request)
                    ? await IncomingFile.FromFormAsync(http.Request, cancellation)
                    : new IncomingFile(string.IsNullOrWhiteSpace(fileName) ? UnnamedFile : fileName, http.Request.Body, null);
                if (file is null) return Problem(422, "The form holds no file part.");
                stored = await store.RunAsync(permit, file.FileName, file.Bytes, cancellation);
            }
            catch (IOException)
            {
                return Problem(400, "The file did not arrive whole. Nothing was kept. Send it again.");
            }

            if (stored.Upload is not { } upload) return Problem(stored.Why switch { UploadRefusal.Empty => 422, UploadRefusal.DiskFull => 507, _ => 413 }, stored.Refusal!);
            RecordingResult result = await record.RunAsync(permit, upload, Choices.Read(http.Request.Query), leaveOutProblems ?? false, CancellationToken.None);
            if (result.Batch is not { } batch) return NotRecorded(upload, result);
            BatchRead recorded = (await read.RunAsync(permit, batch, waitingOnly: false, 0, 0, cancellation))!;
            return Results.Created($"/api/v1/sites/{Uri.EscapeDataString(site)}/batches/{batch}", Answer(recorded.Summary));
        });

    private static IResult NotRecorded(Guid upload, RecordingResult result) => Results.Problem(
        statusCode: result.Problems.Count > 0 ? StatusCodes.Status422UnprocessableEntity : StatusCodes.Status409Conflict,
        title: "Nothing was recorded.",
        detail: result.Refusal,
        extensions: new Dictionary<string, object?>
        {
            ["upload"] = upload,
            ["problems"] = result.Problems.Select(one => new ProblemAnswer(one.Line > 0 ? one.Line : null, one.Column, one.Found, one.Expected, one.Sentence)).ToArray(),
        });

    private static IResult Problem(int status, string detail) => Results.Problem(statusCode: status, title: "Nothing was recorded.", detail: detail);

    private static BatchAnswer Answer(BatchSummary batch) => new(
        batch.Batch, batch.FileName, Choices.InAddress(Choices.Contents, batch.Content)!, batch.Sha256, batch.RowsRead, batch.RowsRecorded,
        batch.LinesLeftOut, batch.Assumptions, batch.RecordedAt.ToDateTimeUtc(), batch.RecordedBy, batch.Waiting, Day(batch.FirstDay), Day(batch.LastDay),
        batch.Withdrawal?.At.ToDateTimeUtc(), batch.Withdrawal?.By, batch.Withdrawal?.Reason);

    private static BatchWithRows Answer(BatchRead read) => new(Answer(read.Summary), read.Rows.Select(row => new RowAnswer(
        row.Line, row.Sequence!.Value, NumberOf(row.Body), row.Match is { } match ? Word(match.Outcome) : null, row.Match?.Adopted, row.Match?.Nearest,
        row.Match?.DistanceToNamedMetres, row.Match?.DistanceToNearestMetres, row.Match?.SameAs, row.Match?.WaitsForDecision ?? false)).ToArray());

    private static string? NumberOf(RecordBody body) => body switch
    {
        PilePlannedBody planned => planned.Pile.Number,
        PileInstalledBody built => built.Installation.PileNumber,
        PileLoggedBody logged => logged.Log.PileNumber,
        PositionCheckedBody measured => measured.Measurement.PileNumber,
        _ => null,
    };

    private static string Word(MatchOutcome outcome) => char.ToLowerInvariant(outcome.ToString()[0]) + outcome.ToString()[1..];

    private static DateOnly? Day(LocalDate? day) => day is { } date ? new DateOnly(date.Year, date.Month, date.Day) : null;
}

/// <summary>A batch, as programs read it. Instants are UTC.</summary>
internal sealed record BatchAnswer(
    long Batch, string FileName, string Content, string Sha256, int RowsRead, int RowsRecorded, IReadOnlyList<long> LinesLeftOut,
    IReadOnlyList<string> Assumptions, DateTime RecordedAt, string RecordedBy, int WaitingForDecision, DateOnly? FirstDay, DateOnly? LastDay,
    DateTime? WithdrawnAt, string? WithdrawnBy, string? WithdrawnBecause);

/// <summary>A batch with its rows.</summary>
internal sealed record BatchWithRows(BatchAnswer Batch, IReadOnlyList<RowAnswer> Rows);

/// <summary>A row of a batch: which pile it says, and how it stands to the design.</summary>
internal sealed record RowAnswer(
    long Line, long Sequence, string? PileNumber, string? Match, string? AdoptedPile, string? NearestPile,
    double? DistanceToNamedMetres, double? DistanceToNearestMetres, long? SameAsSequence, bool WaitsForDecision);

/// <summary>A problem of a file: where, what was found, what was expected.</summary>
internal sealed record ProblemAnswer(long? Line, string? Column, string? Found, string Expected, string Sentence);
