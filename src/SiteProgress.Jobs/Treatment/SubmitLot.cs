using Microsoft.EntityFrameworkCore;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Records;
using SiteProgress.Core.Treatment;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;
using SiteProgress.Storage;

namespace SiteProgress.Jobs.Treatment;

/// <summary>Submits piles together for acceptance.</summary>
public sealed class SubmitLot(SiteRecorder recorder, IDbContextFactory<SiteProgressDb> contexts)
{
    /// <summary>Submits those piles of a selection that stand, are not accepted, and wait in no other lot.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="selection">The piles.</param>
    /// <param name="note">What the lot is.</param>
    /// <param name="seen">Hash of the summary that was shown.</param>
    /// <param name="cancellation">Stops the work.</param>
    [Needs(Right.SubmitLots)]
    public async Task<TreatmentAnswer> RunAsync(Permit permit, PileSelection selection, string note, string seen, CancellationToken cancellation)
    {
        permit.Demand(Right.SubmitLots);
        if (Treating.WhyNot(note, "What the lot is") is { } why) return new(null, why);
        IReadOnlyList<string> numbers = await selection.NumbersAsync(contexts, permit.Site, cancellation);
        if (numbers.Count > PileSelection.MostPiles) return new(null, $"A lot holds at most {PileSelection.MostPiles} piles.");
        return await Treating.RecordAsync(
            recorder,
            permit,
            Right.SubmitLots,
            site =>
            {
                if (!string.Equals(SelectionSheet.Of(site, selection.Words, numbers).Sheet.Hash, seen, StringComparison.OrdinalIgnoreCase)) return Attempt.Stale(null);
                string[] piles = [.. numbers.Where(number => CanBeSubmitted(site, number))];
                if (piles.Length == 0) return Attempt.Refuse("No pile of this selection can be submitted: each is outstanding, accepted, or waits in another lot.");
                int lot = site.Treated.Lots.Count + 1;
                return Attempt.Record(lot, new LotSubmittedBody(lot, piles, note.Trim()));
            },
            cancellation);
    }

    internal static bool CanBeSubmitted(DerivedSite site, string number)
        => site.Treated.ReadinessOf(number).Readiness != Readiness.Accepted
            && site.Treated.SheetOf(number) is not null
            && !(site.Treated.Find(number)?.Lot is { } lot && site.Treated.Lots[lot - 1].Stage == LotStage.Submitted);
}

/// <summary>The sheet of a selection or lot, made the same way for the page that shows it and the job that checks what was seen.</summary>
internal static class SelectionSheet
{
    public static LotSummary Of(DerivedSite site, string words, IReadOnlyList<string> numbers)
        => LotSummary.Of($"Selection {words}", numbers, site.Treated, site.History.Settings!, PlacedTests.Of(site));

    public static LotSummary Of(DerivedSite site, Lot lot)
        => LotSummary.Of(FormattableString.Invariant($"Lot {lot.Number}, submitted in record {lot.Submitted.Sequence}"), lot.Piles, site.Treated, site.History.Settings!, PlacedTests.Of(site));
}
