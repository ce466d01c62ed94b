using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Treatment;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Treatment;

/// <summary>Non-conformances, lots and hold points for programs, by the jobs the pages use.</summary>
internal sealed class TreatmentApi : IEndpoints
{
    public void Map(IEndpointRouteBuilder app, RouteGroupBuilder api)
    {
        RouteGroupBuilder site = api.MapGroup("/sites/{site}");
        site.MapGet("/decisions", (HttpContext http, string site, ReadDecisions job) => Api.AskAsync(http, site, job.RunAsync))
            .WithName("Decisions").WithSummary("What waits for a decision, a verification, a release, a proposal or the work.").Produces<ReadDecisions.View>();
        MapNonConformances(site);
        MapLots(site);
        MapHoldPoints(site);
    }

    private static void MapNonConformances(RouteGroupBuilder api)
    {
        api.MapGet("/non-conformances", (HttpContext http, string site, ReadNonConformances job) => Api.AskAsync(http, site, job.ListAsync))
            .WithName("NonConformances").WithSummary("All non-conformances, the latest first.").Produces<ReadNonConformances.List>();
        api.MapGet("/non-conformances.csv", (HttpContext http, string site, ReadNonConformances job) =>
            Api.AskAsync(http, site, async (permit, cancellation) => TableAnswer.Of($"{site}-non-conformances.csv", Write, (await job.ListAsync(permit, cancellation)).All)))
            .WithName("NonConformancesTable").WithSummary("The same as comma-separated text.").Produces(StatusCodes.Status200OK, contentType: "text/csv");
        api.MapGet("/findings", (HttpContext http, string site, ReadFreeFindings job) => FindingParts.Refusal(http.Request.Query) is { } refusal
                ? Task.FromResult(refusal)
                : Api.AskAsync(http, site, (permit, cancellation) => job.RunAsync(permit, FindingParts.Of(http.Request.Query), cancellation)))
            .WithName("FreeFindings").WithSummary("Findings that are in no non-conformance, narrowed by pile, zone, check, barge and day.").Produces<ReadFreeFindings.Answer>().ProducesProblem(400);
        api.MapGet("/non-conformances/{nonConformance:int}", (HttpContext http, string site, int nonConformance, ReadNonConformances job) =>
            Api.AskAsync(http, site, (permit, cancellation) => job.OneAsync(permit, nonConformance, cancellation)))
            .WithName("NonConformance").WithSummary("One non-conformance with the sheet a decision covers; send its hash back as seen.").Produces<ReadNonConformances.One>().ProducesProblem(404);
        Act(api.MapPost("/non-conformances", (HttpContext http, string site, RaiseRequest sent, RaiseNonConformance job) =>
            AnswerAsync(http, site, (permit, cancellation) => job.RunAsync(permit, [.. (sent.Findings ?? []).Select(one => new FindingName(one?.Pile ?? "", one?.Check ?? default, one?.Account))], sent.Reason ?? "", sent.DueOn, cancellation))), "RaiseNonConformance", "Gathers findings into a non-conformance.");
        Act(api.MapPost("/non-conformances/{nonConformance:int}/proposal", (HttpContext http, string site, int nonConformance, ProposalRequest sent, ProposeDisposition job) =>
            AnswerAsync(http, site, (permit, cancellation) => job.RunAsync(
                permit, nonConformance, new(sent.Disposition, sent.Reason ?? "", sent.DesignerReference, sent.Additional), sent.Seen ?? "", cancellation))), "ProposeDisposition", "Proposes a disposition.");
        Act(api.MapPost("/non-conformances/{nonConformance:int}/decision", (HttpContext http, string site, int nonConformance, DecisionRequest sent, DecideDisposition job) =>
            AnswerAsync(http, site, (permit, cancellation) => job.RunAsync(permit, nonConformance, sent.Yes, sent.Comment ?? "", sent.Seen ?? "", cancellation))), "DecideDisposition", "Approves the proposal or sends it back.");
        Act(api.MapPost("/non-conformances/{nonConformance:int}/comment", (HttpContext http, string site, int nonConformance, TextRequest sent, AddToNonConformance job) =>
            AnswerAsync(http, site, (permit, cancellation) => job.CommentAsync(permit, nonConformance, sent.Text ?? "", cancellation))), "CommentNonConformance", "Adds a comment.");
        Act(api.MapPost("/non-conformances/{nonConformance:int}/due-date", (HttpContext http, string site, int nonConformance, DueDateRequest sent, AddToNonConformance job) =>
            AnswerAsync(http, site, (permit, cancellation) => job.SetDueDateAsync(permit, nonConformance, sent.DueOn, sent.Reason ?? "", cancellation))), "SetDueDate", "Sets another due date.");
        Act(api.MapPost("/non-conformances/{nonConformance:int}/evidence", (HttpContext http, string site, int nonConformance, EvidenceRequest sent, AddToNonConformance job) =>
            AnswerAsync(http, site, (permit, cancellation) => job.GiveEvidenceAsync(permit, nonConformance, sent.Reference ?? "", sent.Note ?? "", cancellation))), "GiveEvidence", "Gives evidence that the disposition is done.");
        Act(api.MapPost("/non-conformances/{nonConformance:int}/closure", (HttpContext http, string site, int nonConformance, DecisionRequest sent, VerifyClosure job) =>
            AnswerAsync(http, site, (permit, cancellation) => job.RunAsync(permit, nonConformance, sent.Yes, sent.Comment ?? "", sent.Seen ?? "", cancellation))), "VerifyClosure", "Verifies the closure or sends the evidence back.");
    }

    private static void MapLots(RouteGroupBuilder api)
    {
        api.MapGet("/lots", (HttpContext http, string site, ReadLots job) => Api.AskAsync(http, site, job.ListAsync))
            .WithName("Lots").WithSummary("All lots, the latest first.").Produces<ReadLots.List>();
        api.MapGet("/lots/{lot:int}", (HttpContext http, string site, int lot, ReadLots job) =>
            Api.AskAsync(http, site, (permit, cancellation) => job.OneAsync(permit, lot, cancellation)))
            .WithName("Lot").WithSummary("One lot with its summary; send its hash back as seen.").Produces<ReadLots.One>().ProducesProblem(404);
        api.MapGet("/lots/{lot:int}/signed-changes", (HttpContext http, string site, int lot, ReadSignedChanges job) =>
            Api.AskAsync(http, site, (permit, cancellation) => job.LotAsync(permit, lot, cancellation)))
            .WithName("LotSignedChanges").WithSummary("What changed of an accepted lot since it was signed: lot rules, and its piles line by line; 404 where it was not accepted.").Produces<ReadSignedChanges.OfLot>().ProducesProblem(404);
        Act(api.MapPost("/lots", (HttpContext http, string site, LotRequest sent, SubmitLot job) =>
            AnswerAsync(http, site, (permit, cancellation) => job.RunAsync(
                permit, new PileSelection(string.Join(' ', Texts(sent.Piles)), null, Texts(sent.Piles)), sent.Note ?? "", sent.Seen ?? "", cancellation))), "SubmitLot", "Submits the named piles together; seen is the hash of their selection.");
        Act(api.MapPost("/lots/{lot:int}/decision", (HttpContext http, string site, int lot, DecisionRequest sent, AcceptPiles job) =>
            AnswerAsync(http, site, (permit, cancellation) => sent.Yes
                ? job.LotAsync(permit, lot, sent.Comment ?? "", sent.Seen ?? "", cancellation)
                : job.ReturnLotAsync(permit, lot, sent.Comment ?? "", sent.Seen ?? "", cancellation))), "DecideLot", "Accepts the piles of a lot that are ready, or sends it back.");
    }

    private static void MapHoldPoints(RouteGroupBuilder api)
    {
        api.MapGet("/hold-points", (HttpContext http, string site, ReadHoldPoints job) => Api.AskAsync(http, site, job.RunAsync))
            .WithName("HoldPoints").WithSummary("All hold points with what is shown to who signs.").Produces<ReadHoldPoints.List>();
        Act(api.MapPost("/hold-points", (HttpContext http, string site, HoldPointRequest sent, KeepHoldPoints job) =>
            AnswerAsync(http, site, (permit, cancellation) => job.SetAsync(
                permit, new(sent.Kind, sent.Name ?? "", sent.Clause ?? "", Texts(sent.Shown), Texts(sent.Waiting), sent.Zone, sent.Barge), cancellation))), "SetHoldPoint", "Sets a hold point.");
        Act(api.MapPost("/hold-points/{holdPoint:int}/release", (HttpContext http, string site, int holdPoint, SignatureRequest sent, KeepHoldPoints job) =>
            AnswerAsync(http, site, (permit, cancellation) => job.ReleaseAsync(permit, holdPoint, sent.Note ?? "", sent.Seen ?? "", cancellation))), "ReleaseHoldPoint", "Signs a hold point for the owner.");
        Act(api.MapPost("/hold-points/{holdPoint:int}/surveyor-signature", (HttpContext http, string site, int holdPoint, SignatureRequest sent, KeepHoldPoints job) =>
            AnswerAsync(http, site, (permit, cancellation) => job.SignAsSurveyorAsync(permit, holdPoint, sent.Note ?? "", sent.Seen ?? "", cancellation))), "SignHoldPoint", "Signs a hold point as surveyor.");
        Act(api.MapPost("/hold-points/{holdPoint:int}/withdrawal", (HttpContext http, string site, int holdPoint, TextRequest sent, KeepHoldPoints job) =>
            AnswerAsync(http, site, (permit, cancellation) => job.WithdrawAsync(permit, holdPoint, sent.Text ?? "", cancellation))), "WithdrawHoldPoint", "Withdraws a hold point.");
    }

    /// <summary>Texts of a list; an entry that is null is an empty text, which the job refuses with its sentence like any other that names nothing.</summary>
    private static string[] Texts(string?[]? list) => [.. (list ?? []).Select(text => text ?? "")];

    private static void Act(RouteHandlerBuilder route, string name, string summary) => TreatmentAnswers.Describe(route, name, summary);

    private static Task<IResult> AnswerAsync(HttpContext http, string site, Func<Permit, CancellationToken, Task<TreatmentAnswer>> job) => TreatmentAnswers.AskAsync(http, site, job);

    private static void Write(TableWriter table, IReadOnlyList<ReadNonConformances.Line> lines)
    {
        table.Header("number", "stage", "disposition", "piles", "not met", "due on", "overdue", "raised at", "raised by", "reason", "sand accounts");
        foreach (ReadNonConformances.Line line in lines)
        {
            table.Whole(line.Number)
                .Text(line.Stage.ToString())
                .Text(line.Disposition?.ToString())
                .Text(string.Join(' ', line.Piles))
                .Text(string.Join(' ', line.Checks))
                .Text(line.DueOn is { } due ? NodaTime.Text.LocalDatePattern.Iso.Format(due) : null)
                .Text(line.Overdue ? "yes" : "no")
                .Time(line.RaisedAt, DateTimeZone.Utc)
                .Text(line.RaisedBy)
                .Text(line.Reason)
                .Text(string.Join("; ", line.Accounts.Select(account => account.InWords())))
                .EndRow();
        }
    }

    /// <summary>Findings to gather.</summary>
    internal sealed record RaiseRequest(FindingName?[]? Findings, string? Reason, LocalDate? DueOn);

    /// <summary>A proposal; seen is the hash of the sheet it was made on.</summary>
    internal sealed record ProposalRequest(Disposition Disposition, string? Reason, string? DesignerReference, AdditionalPile[]? Additional, string? Seen);

    /// <summary>A decision; seen is the hash of the sheet it was made on.</summary>
    internal sealed record DecisionRequest(bool Yes, string? Comment, string? Seen);

    /// <summary>A text.</summary>
    internal sealed record TextRequest(string? Text);

    /// <summary>A due date.</summary>
    internal sealed record DueDateRequest(LocalDate DueOn, string? Reason);

    /// <summary>Evidence.</summary>
    internal sealed record EvidenceRequest(string? Reference, string? Note);

    /// <summary>Piles submitted together; seen is the hash of their selection.</summary>
    internal sealed record LotRequest(string?[]? Piles, string? Note, string? Seen);

    /// <summary>A hold point.</summary>
    internal sealed record HoldPointRequest(HoldPointKind Kind, string? Name, string? Clause, string?[]? Shown, string?[]? Waiting, string? Zone, string? Barge);

    /// <summary>A signature; seen is the hash of the sheet it is set under.</summary>
    internal sealed record SignatureRequest(string? Note, string? Seen);
}
