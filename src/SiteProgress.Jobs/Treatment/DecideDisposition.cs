using SiteProgress.Core.Derivation;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Core.Treatment;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Treatment;

/// <summary>Approves a proposed disposition or sends it back. An approved concession accepts the piles it covers wholly.</summary>
public sealed class DecideDisposition(SiteRecorder recorder)
{
    /// <summary>Decides.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="number">Number of the non-conformance.</param>
    /// <param name="approve">True to approve, false to send back.</param>
    /// <param name="comment">What the person says; needed to send back.</param>
    /// <param name="seen">Hash of the sheet that was shown.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="AccessRefusedException">The role may not decide, or the person made the proposal.</exception>
    [Needs(Right.Decide)]
    public async Task<TreatmentAnswer> RunAsync(Permit permit, int number, bool approve, string comment, string seen, CancellationToken cancellation)
    {
        permit.Demand(Right.Decide);
        if (Treating.WhyNot(comment, "The comment", needed: !approve) is { } why) return new(null, why);
        return await Treating.RecordAsync(
            recorder,
            permit,
            Right.Decide,
            site =>
            {
                if (site.Find(number) is not { } one) return Attempt.Refuse($"There is no non-conformance {number} on this site.");
                if (one.Proposal is { } made) Treating.DemandOther(permit, [made.By], "You made this proposal yourself.");
                if (!one.IsShown(seen)) return Attempt.Stale(one.Steps[^1]);
                if (one.Stage != Stage.Proposed) return Attempt.Refuse($"Non-conformance {number} has no proposal that waits for a decision.");
                bool concession = approve && one.Proposal!.Disposition == Disposition.UseAsIs;
                return Attempt.Record(number, new DispositionDecidedBody(
                    number, one.Proposal!.Sequence, approve, (comment ?? "").Trim(), one.Shown(), seen.ToLowerInvariant(), concession ? Accepted(site, one) : null));
            },
            cancellation);
    }

    /// <summary>Piles of which nothing is left open but what this concession covers. The others wait for their own acceptance.</summary>
    private static SignedPile[] Accepted(DerivedSite site, NonConformance one)
        => [.. one.Piles()
            .Where(pile => site.Treated.WouldBeReady(pile, one.Number))
            .Select(pile => new SignedPile(pile, site.Treated.SheetOf(pile)!.Hash))];
}
