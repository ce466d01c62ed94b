using Microsoft.EntityFrameworkCore;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Records;
using SiteProgress.Core.Treatment;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;
using SiteProgress.Storage;

namespace SiteProgress.Jobs.Treatment;

/// <summary>Accepts a pile, a lot or a selection, each after its sheet was shown. What was shown is kept by its hash.</summary>
public sealed class AcceptPiles(SiteRecorder recorder, IDbContextFactory<SiteProgressDb> contexts)
{
    /// <summary>Accepts one pile. One with a required check not judged needs a comment.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="pile">Pile number.</param>
    /// <param name="comment">What the person says.</param>
    /// <param name="seen">Hash of the sheet that was shown.</param>
    /// <param name="cancellation">Stops the work.</param>
    [Needs(Right.Decide)]
    public async Task<TreatmentAnswer> OneAsync(Permit permit, string pile, string comment, string seen, CancellationToken cancellation)
    {
        permit.Demand(Right.Decide);
        if (Treating.WhyNot(comment, "The comment", needed: false) is { } why) return new(null, why);
        return await Treating.RecordAsync(
            recorder,
            permit,
            Right.Decide,
            site =>
            {
                if (site.Treated.SheetOf(pile) is not { } sheet) return Attempt.Refuse($"Nothing stands for a pile {pile} on this site.");
                if (site.Treated.Find(pile)?.Lot is { } lot) Treating.DemandOther(permit, [site.Treated.Lots[lot - 1].Submitted.By], "You submitted the lot of this pile yourself.");
                PileReadiness readiness = site.Treated.ReadinessOf(pile);
                if (readiness.Readiness == Readiness.Accepted) return new Attempt(null, [], $"Pile {pile} was accepted meanwhile, in record {site.Treated.Find(pile)!.Acceptance?.Sequence}. Nothing of yours was recorded.", true);
                if (!Same(sheet.Hash, seen)) return Attempt.Stale(null);
                if (readiness.Readiness == Readiness.NotReady) return Attempt.Refuse($"Pile {pile} cannot be accepted. {readiness.Reason}");
                if (readiness.Readiness == Readiness.OneByOne && string.IsNullOrWhiteSpace(comment)) return Attempt.Refuse($"{readiness.Reason} To accept the pile all the same, say why.");
                return Attempt.Record(null, new PilesAcceptedBody([new(site.Treated.Judged(pile)!.Pile.Number, sheet.Hash)], null, null, (comment ?? "").Trim(), sheet.Hash));
            },
            cancellation);
    }

    /// <summary>Accepts those piles of a lot that are ready; the others stay out, with the reason.</summary>
    [Needs(Right.Decide)]
    public async Task<TreatmentAnswer> LotAsync(Permit permit, int lot, string comment, string seen, CancellationToken cancellation)
    {
        permit.Demand(Right.Decide);
        if (Treating.WhyNot(comment, "The comment", needed: false) is { } why) return new(null, why);
        return await Treating.RecordAsync(
            recorder,
            permit,
            Right.Decide,
            site =>
            {
                if (site.Treated.Lots.FirstOrDefault(one => one.Number == lot) is not { } found) return Attempt.Refuse($"There is no lot {lot} on this site.");
                Treating.DemandOther(permit, [found.Submitted.By], "You submitted this lot yourself.");
                if (found.Stage != LotStage.Submitted) return Attempt.Stale(found.Decision);
                return Together(SelectionSheet.Of(site, found), lot, null, comment, seen);
            },
            cancellation);
    }

    /// <summary>Sends a lot back.</summary>
    [Needs(Right.Decide)]
    public async Task<TreatmentAnswer> ReturnLotAsync(Permit permit, int lot, string reason, string seen, CancellationToken cancellation)
    {
        permit.Demand(Right.Decide);
        if (Treating.WhyNot(reason, "The reason") is { } why) return new(null, why);
        return await Treating.RecordAsync(
            recorder,
            permit,
            Right.Decide,
            site =>
            {
                if (site.Treated.Lots.FirstOrDefault(one => one.Number == lot) is not { } found) return Attempt.Refuse($"There is no lot {lot} on this site.");
                Treating.DemandOther(permit, [found.Submitted.By], "You submitted this lot yourself.");
                if (found.Stage != LotStage.Submitted) return Attempt.Stale(found.Decision);
                return Same(SelectionSheet.Of(site, found).Sheet.Hash, seen)
                    ? Attempt.Record(lot, new LotReturnedBody(lot, reason.Trim(), seen.ToLowerInvariant()))
                    : Attempt.Stale(null);
            },
            cancellation);
    }

    /// <summary>Accepts those piles of a selection that are ready.</summary>
    [Needs(Right.Decide)]
    public async Task<TreatmentAnswer> SelectionAsync(Permit permit, PileSelection selection, string comment, string seen, CancellationToken cancellation)
    {
        permit.Demand(Right.Decide);
        if (Treating.WhyNot(comment, "The comment", needed: false) is { } why) return new(null, why);
        IReadOnlyList<string> numbers = await selection.NumbersAsync(contexts, permit.Site, cancellation);
        if (numbers.Count > PileSelection.MostPiles) return new(null, $"At most {PileSelection.MostPiles} piles are accepted together.");
        return await Treating.RecordAsync(
            recorder,
            permit,
            Right.Decide,
            site =>
            {
                LotSummary summary = SelectionSheet.Of(site, selection.Words, numbers);
                Treating.DemandOther(
                    permit,
                    summary.Ready.Select(pile => site.Treated.Find(pile.Number)?.Lot).OfType<int>().Distinct().Select(lot => site.Treated.Lots[lot - 1].Submitted.By),
                    "You submitted a lot with piles of this selection yourself.");
                return Together(summary, null, selection.Words, comment, seen);
            },
            cancellation);
    }

    /// <summary>Withdraws the acceptance of a pile.</summary>
    [Needs(Right.Decide)]
    public async Task<TreatmentAnswer> WithdrawAsync(Permit permit, string pile, string reason, CancellationToken cancellation)
    {
        permit.Demand(Right.Decide);
        if (Treating.WhyNot(reason, "The reason") is { } why) return new(null, why);
        return await Treating.RecordAsync(
            recorder,
            permit,
            Right.Decide,
            site => site.Treated.Find(pile) is { Acceptance: not null }
                ? Attempt.Record(null, new AcceptanceWithdrawnBody([site.Treated.Judged(pile)!.Pile.Number], reason.Trim()))
                : Attempt.Refuse($"There is no acceptance of pile {pile} in force."),
            cancellation);
    }

    private static Attempt Together(LotSummary summary, int? lot, string? words, string comment, string seen)
    {
        if (!Same(summary.Sheet.Hash, seen)) return Attempt.Stale(null);
        if (summary.Ready.Count == 0) return Attempt.Refuse("No pile of it is ready to be accepted; the summary says why for each.");
        if (!summary.RulesMet && string.IsNullOrWhiteSpace(comment)) return Attempt.Refuse("A lot rule is not met or not judged. To accept all the same, say why.");
        return Attempt.Record(lot, new PilesAcceptedBody(summary.Ready, lot, words, (comment ?? "").Trim(), summary.Sheet.Hash));
    }

    private static bool Same(string hash, string? seen) => string.Equals(hash, seen, StringComparison.OrdinalIgnoreCase);
}
