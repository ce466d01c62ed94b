using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Core.Treatment;

/// <summary>Makes a non-conformance of its records and of how its findings stand now.</summary>
/// <param name="records">Its records, the raising first.</param>
/// <param name="standing">How findings stand now.</param>
/// <param name="isAccepted">True for a pile that is accepted.</param>
internal sealed class NonConformanceFold(
    IReadOnlyList<TreatmentRecord> records, FindingsNow standing, Func<string, bool> isAccepted)
{
    private readonly NonConformanceRaisedBody _raised = (NonConformanceRaisedBody)records[0].Body;

    public NonConformance Make()
    {
        FindingNow[] findings = [.. _raised.Findings.Select(Now)];
        TreatmentRecord? proposal = Last<DispositionProposedBody>(after: 0);
        DispositionProposedBody? proposed = (DispositionProposedBody?)proposal?.Body;
        TreatmentRecord? decision = proposal is null ? null : Last<DispositionDecidedBody>(proposal.Sequence);
        bool gone = _raised.Findings.All(standing.IsGone);
        ReplacementPile[] replacements = [.. (proposed?.Additional ?? []).Select(pile => new ReplacementPile(pile.Number, pile.Replaces, isAccepted(pile.Number)))];
        (Stage stage, string? reopened) = StageOf(proposed, decision, findings, gone, replacements);
        return new NonConformance(
            _raised.Number,
            stage,
            _raised.Reason,
            findings,
            DueOn(),
            proposed is null ? null : new ProposedDisposition(
                proposal!.Sequence, proposal.By, proposed.Disposition, proposed.Reason, proposed.DesignerReference, proposed.Additional ?? []),
            decision is null ? null : TreatmentSteps.Of(decision),
            reopened,
            gone,
            replacements,
            [.. records.Select(TreatmentSteps.Of)]);
    }

    private (Stage Stage, string? Reopened) StageOf(
        DispositionProposedBody? proposed, TreatmentRecord? decision, FindingNow[] findings, bool gone, ReplacementPile[] replacements)
    {
        TreatmentRecord? closure = Last<ClosureDecidedBody>(decision?.Sequence ?? 0);
        string? since = null;
        if (closure?.Body is ClosureDecidedBody { Verified: true } closed && Last<DispositionProposedBody>(closure.Sequence) is null)
        {
            if (Changed(closed.Findings, findings) is not { } later) return (Stage.Closed, null);
            since = $"Closed in record {SheetFigures.Whole(closure.Sequence)}; since then: {later}";
        }

        if (since is null && decision?.Body is DispositionDecidedBody { Approved: true } approved && Changed(approved.Findings, findings) is { } change)
        {
            // Work that was ordered is meant to change the finding; a concession covers what was shown and nothing else.
            bool meant = proposed!.Disposition is Disposition.InstallAgain or Disposition.RepairInPlace && gone;
            if (!meant) since = $"Decided in record {SheetFigures.Whole(decision.Sequence)}; since then: {change}";
        }

        if (gone) return (Stage.ToVerify, since);
        if (since is not null) return (Stage.Reopened, since);
        return (proposed, decision?.Body) switch
        {
            (null, _) => (Stage.Raised, null),
            (_, null) => (Stage.Proposed, null),
            (_, DispositionDecidedBody { Approved: false }) => (Stage.Returned, null),
            ({ Disposition: Disposition.UseAsIs }, _) => (Stage.Closed, null),
            _ => (Done(decision!, closure, replacements) ? Stage.ToVerify : Stage.Approved, null),
        };
    }

    private bool Done(TreatmentRecord decision, TreatmentRecord? closure, ReplacementPile[] replacements)
        => replacements.Length > 0
            ? replacements.All(pile => pile.Accepted)
            : Last<EvidenceGivenBody>(closure?.Sequence ?? decision.Sequence) is not null;

    private static string? Changed(IReadOnlyList<FindingShown> then, FindingNow[] now)
    {
        foreach (FindingShown shown in then)
        {
            FindingNow? current = Array.Find(now, finding => finding.Pile == shown.Pile && finding.Check == shown.Check && finding.Account == shown.Account);
            if (current is not null && current.Now != shown.Line)
            {
                return $"{SheetFigures.Of(shown.Check)} of {shown.Account?.InWords() ?? shown.Pile} was '{shown.Line}' and is '{current.Now}'.";
            }
        }

        return null;
    }

    private FindingNow Now(FindingShown raised)
        => new(raised.Pile, raised.Check, raised.Line, standing.LineOf(raised), standing.Stands(raised), raised.Account);

    private LocalDate? DueOn() => Last<DueDateSetBody>(after: 0)?.Body is DueDateSetBody set ? set.DueOn : _raised.DueOn;

    private TreatmentRecord? Last<T>(long after)
        where T : TreatmentBody
        => records.LastOrDefault(record => record.Body is T && record.Sequence > after);
}
