using Microsoft.AspNetCore.Mvc;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Design;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Design;
using SiteProgress.Web.Shell;

namespace SiteProgress.Web.Design;

/// <summary>The design through its revisions for programs and as tables.</summary>
internal sealed class DesignAnswers : IEndpoints
{
    private const int MostLines = 100_000;

    /// <summary>The design: its revisions, and built piles whose design was changed afterwards. Of the piles planned, additionalPiles are in no schedule: non-conformances put them in.</summary>
    internal sealed record DesignAnswer(
        long SequenceOfRecords, int PilesPlanned, int AdditionalPiles, IReadOnlyList<RevisionAnswer> Revisions, IReadOnlyList<ChangedAnswer> BuiltDesignChanged);

    /// <summary>A revision. Instants are UTC; a null inForceFrom means from the beginning.</summary>
    internal sealed record RevisionAnswer(
        int Revision, string? Name, long Batch, string FileName, DesignScope Scope, DateTime? InForceFrom, DateTime RecordedAt, string RecordedBy, bool Withdrawn,
        int Added, int TakenOut, int Moved, int Renumbered, int Changed, int PilesPlanned);

    /// <summary>A built pile whose design was changed afterwards.</summary>
    internal sealed record ChangedAnswer(string Pile, int BuiltByRevision, int? ChangedByRevision, string Change, DesignChangeAnswer? Answer, long? AnsweredInRecord);

    /// <summary>What differs between two revisions.</summary>
    internal sealed record DifferenceAnswer(long SequenceOfRecords, int? From, int To, int Unchanged, IReadOnlyList<LineAnswer> Lines);

    /// <summary>A pile that differs. Metres on the site grid; dE and dN along CRS grid east and north.</summary>
    internal sealed record LineAnswer(
        DesignChangeKind Change, string? Pile, string? PileBefore, string Zone, SiteCoordinate? Position, SiteCoordinate? PositionBefore,
        double? EastMetres, double? NorthMetres, IReadOnlyList<string> OtherChanges, bool Built);

    /// <summary>Names of piles and what is to become of them.</summary>
    internal sealed record ProposalRequest(IReadOnlyList<string>? Piles, DesignChangeAnswer? Answer, string? Reason);

    /// <summary>A decision on a proposal.</summary>
    internal sealed record DecisionRequest(bool? Approve, string? Comment);

    /// <inheritdoc />
    public void Map(IEndpointRouteBuilder app, RouteGroupBuilder api)
    {
        api.MapGet("/sites/{site}/design", (HttpContext http, string site, ReadDesign read) =>
                Api.AskAsync(http, site, async (permit, cancellation) => Of(await read.RunAsync(permit, cancellation))))
            .Produces<DesignAnswer>().WithName("Design").WithSummary("The design: its revisions with what each changed, and built piles whose design was changed afterwards.");
        api.MapGet("/sites/{site}/design/difference", (HttpContext http, string site, [FromQuery] string? from, [FromQuery] string? to, CompareRevisions compare) =>
                Refused(from, to, null) ?? Api.AskAsync(http, site, async (permit, cancellation) => await compare.RunAsync(permit, Whole(from), Whole(to), cancellation) is { } view ? Of(view) : null))
            .Produces<DifferenceAnswer>().ProducesProblem(404).WithName("DesignDifference")
            .WithSummary("What differs between two revisions of the design (from, to: numbers of revisions; the last one against the one before where left out).");
        api.MapGet("/sites/{site}/design/difference.csv", (HttpContext http, string site, [FromQuery] string? from, [FromQuery] string? to, [FromQuery] string? kind, CompareRevisions compare) =>
                Refused(from, to, kind) ?? Api.AskAsync(http, site, async (permit, cancellation) => await compare.RunAsync(permit, Whole(from), Whole(to), cancellation) is { } view
                    ? TableAnswer.Of(FormattableString.Invariant($"{permit.SiteCode}-design-{view.From?.Number ?? 0}-{view.To.Number}.csv"), (table, comparison) => DesignWords.Table(table, comparison, DesignWords.Kind(kind)), view.Comparison)
                    : null!))
            .Produces<string>(contentType: TableAnswer.ContentType).ProducesProblem(404).WithName("DesignDifferenceTable").WithSummary("The same as a table; kind leaves one kind of change.");
        api.MapPost("/sites/{site}/design/changed", (HttpContext http, string site, ProposalRequest sent, AnswerDesignChanges job) =>
                Api.AskAsync(http, site, async (permit, cancellation) =>
                    Told(await job.ProposeAsync(permit, [.. (sent.Piles ?? []).OfType<string>()], sent.Answer ?? 0, sent.Reason ?? "", cancellation))))
            .Produces(204).ProducesProblem(409).WithName("ProposeForChangedPiles").WithSummary("Proposes what is to become of built piles whose design was changed: keepAsBuilt or holdAgainstNewDesign.");
        api.MapPost("/sites/{site}/design/changed/{proposal:long}/decision", (HttpContext http, string site, long proposal, DecisionRequest sent, AnswerDesignChanges job) =>
                sent.Approve is not { } approve
                    ? Task.FromResult(Results.Problem(statusCode: 400, detail: "approve: nothing was sent; expected true or false."))
                    : Api.AskAsync(http, site, async (permit, cancellation) => Told(await job.DecideAsync(permit, proposal, approve, sent.Comment ?? "", cancellation))))
            .Produces(204).ProducesProblem(409).WithName("DecideForChangedPiles").WithSummary("Approves such a proposal or sends it back; not one's own.");
    }

    private static IResult Told(SiteProgress.Jobs.Treatment.TreatmentAnswer answer)
        => answer.Refusal is { } refusal ? Results.Problem(statusCode: 409, detail: refusal) : Results.NoContent();

    private static Task<IResult>? Refused(string? from, string? to, string? kind)
        => AskedParts.Refusal(
            ("from", from, Whole(from) is not null, "the number of a revision"), ("to", to, Whole(to) is not null, "the number of a revision"),
            ("kind", kind, DesignWords.Kind(kind) is not null, string.Join(", ", DesignWords.Kinds.Select(one => one.InAddress)))) is { } refusal ? Task.FromResult(refusal) : null;

    internal static int? Whole(string? text)
        => int.TryParse(text, System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out int number) ? number : null;

    private static DesignAnswer Of(ReadDesign.View view) => new(
        view.RecordSequence, view.Planned, view.Additional,
        [.. view.Revisions.Select(line => new RevisionAnswer(
            line.Revision.Number, line.Revision.Name, line.Revision.Batch.Sequence, line.Revision.Batch.Body.FileName, line.Revision.Scope, line.Revision.InForceFrom?.ToDateTimeUtc(),
            line.Revision.Batch.RecordedAt.ToDateTimeUtc(), line.By, !line.Revision.Counts, line.Added, line.Deleted, line.Moved, line.Renumbered, line.Changed, line.Planned))],
        [.. view.Changed.Select(pile => new ChangedAnswer(
            pile.Judgement.Pile.Number, pile.Design.JudgedBy, pile.Design.ChangedBy, pile.Design.Line!, pile.Design.Answer, pile.Design.AnsweredIn))]);

    private static DifferenceAnswer Of(CompareRevisions.View view) => new(
        view.RecordSequence, view.From?.Number, view.To.Number, view.Comparison.Difference.Unchanged,
        [.. view.Comparison.Difference.Lines.Take(MostLines).Select(line => new LineAnswer(
            line.Kind, line.After?.Number, line.Before?.Number, (line.After ?? line.Before)!.Zone, line.After?.Position, line.Before?.Position,
            line.Shift?.EastMetres, line.Shift?.NorthMetres, [.. line.Fields.Select(DesignWords.Of)], view.Comparison.IsBuilt(line)))]);
}
