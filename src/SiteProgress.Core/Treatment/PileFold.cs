using SiteProgress.Core.Checks;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Core.Treatment;

/// <summary>Says where each pile stands after all that was decided about it.</summary>
internal sealed class PileFold
{
    private readonly TreatmentLog _log;
    private readonly TreatedSite _site;
    private readonly HoldPointFold[] _holds;
    private readonly Dictionary<string, int> _lots = new(StringComparer.OrdinalIgnoreCase);
    private readonly Dictionary<string, string> _replaces = new(StringComparer.OrdinalIgnoreCase);
    private readonly Dictionary<string, string> _replacedBy = new(StringComparer.OrdinalIgnoreCase);

    public PileFold(TreatmentLog log, TreatedSite site, HoldPointFold[] holds)
    {
        (_log, _site, _holds) = (log, site, holds);
        foreach ((int number, List<TreatmentRecord> records) in log.Lots)
        {
            // A lot holds its piles while it waits; after its decision, only those it accepted.
            if (records.Count > 1) continue;
            foreach (string pile in ((LotSubmittedBody)records[0].Body).Piles) _lots[pile] = number;
        }

        foreach ((AdditionalPile pile, _) in log.Additional)
        {
            _replaces[pile.Number] = pile.Replaces;
            _replacedBy[pile.Replaces] = pile.Number;
        }
    }

    /// <summary>True when the pile stands and its acceptance still covers what stands.</summary>
    public bool IsAccepted(string number)
        => _site.Judged(number) is { } pile && StateOf(pile, BuiltWhileHeld(pile)).State is PileState.Accepted or PileState.AcceptedWithConcession;

    public PileTreatment Make(PileJudgement pile)
    {
        string number = pile.Pile.Number;
        int? builtWhileHeld = BuiltWhileHeld(pile);
        (PileState state, PileAcceptance? acceptance, string? reopened) = StateOf(pile, builtWhileHeld);
        IReadOnlyList<NonConformance> all = _site.NonConformancesOf(number);
        int? held = null;
        foreach (HoldPointFold hold in _holds)
        {
            if (hold.Covers(pile) && hold.Holds(pile)) held ??= hold.Number;
        }

        if (all.Count == 0 && held is null && acceptance is null && builtWhileHeld is null && !_lots.ContainsKey(number) && !_replaces.ContainsKey(number))
        {
            return PileTreatment.Untouched(state);
        }

        return new PileTreatment(
            state,
            all.LastOrDefault(one => one.IsOpen())?.Number ?? (all.Count > 0 ? all[^1].Number : null),
            _lots.TryGetValue(number, out int lot) ? lot : acceptance?.Lot,
            held,
            builtWhileHeld,
            reopened is null ? acceptance : null,
            reopened,
            _replaces.GetValueOrDefault(number),
            _replacedBy.GetValueOrDefault(number));
    }

    private int? BuiltWhileHeld(PileJudgement pile)
    {
        foreach (HoldPointFold hold in _holds)
        {
            if (hold.Covers(pile) && hold.WasBuiltMeanwhile(pile)) return hold.Number;
        }

        return null;
    }

    private (PileState State, PileAcceptance? Acceptance, string? Reopened) StateOf(PileJudgement pile, int? builtWhileHeld)
    {
        string number = pile.Pile.Number;
        PileAcceptance? acceptance = _log.Acceptances.GetValueOrDefault(number);
        if (pile.Standing.Count == 0)
        {
            return (Left(number), acceptance, acceptance is null ? null : $"Accepted in record {SheetFigures.Whole(acceptance.Sequence)}; since then nothing stands for it any more.");
        }

        bool holds = acceptance is not null && _site.IsAsSigned(pile, builtWhileHeld, acceptance);
        string? reopened = acceptance is null || holds ? null
            : $"Accepted in record {SheetFigures.Whole(acceptance.Sequence)}; a later record changed what was signed.";
        IReadOnlyList<NonConformance> all = _site.NonConformancesOf(number);
        if (all.Any(one => one is { Stage: Stage.Closed, Proposal.Disposition: Disposition.AdditionalPile } && Replaced(one, number))) return (PileState.Cancelled, acceptance, null);
        if (all.FirstOrDefault(one => one.IsOpen()) is not null)
        {
            bool again = all.Any(one => one is { Stage: Stage.Approved, Proposal.Disposition: Disposition.InstallAgain });
            return (again ? PileState.BuildAgain : PileState.NonConformance, acceptance, reopened);
        }

        if (holds) return (IsWholly(pile) ? PileState.Accepted : PileState.AcceptedWithConcession, acceptance, null);
        bool covered = pile.State == PileState.Finding && pile.Checks.All(check => check.Verdict != Verdict.NotMet || _site.IsCovered(number, check.Check, openToo: false));
        return (covered ? PileState.NonConformance : pile.State, acceptance, reopened);
    }

    private PileState Left(string number)
        => _site.NonConformancesOf(number).Any(one => one is { Stage: Stage.Approved or Stage.Reopened, Proposal.Disposition: Disposition.InstallAgain })
            ? PileState.BuildAgain
            : PileState.Outstanding;

    private static bool Replaced(NonConformance one, string number)
        => one.Proposal!.Additional.Any(pile => string.Equals(pile.Replaces, number, StringComparison.OrdinalIgnoreCase));

    private static bool IsWholly(PileJudgement pile)
        => pile.Checks.All(check => check.Verdict == Verdict.Met || (check.Verdict == Verdict.NotJudged && !check.Required));
}
