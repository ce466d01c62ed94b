using SiteProgress.Core.Records;
using SiteProgress.Core.Treatment;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Treatment;

/// <summary>Verifies that a non-conformance is closed, or sends the evidence back.</summary>
public sealed class VerifyClosure(SiteRecorder recorder)
{
    /// <summary>Verifies.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="number">Number of the non-conformance.</param>
    /// <param name="verified">True to close it, false to send the evidence back.</param>
    /// <param name="comment">What the person says; needed to send back.</param>
    /// <param name="seen">Hash of the sheet that was shown.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="AccessRefusedException">The role may not decide, or the person made the proposal or gave the evidence.</exception>
    [Needs(Right.Decide)]
    public async Task<TreatmentAnswer> RunAsync(Permit permit, int number, bool verified, string comment, string seen, CancellationToken cancellation)
    {
        permit.Demand(Right.Decide);
        if (Treating.WhyNot(comment, "The comment", needed: !verified) is { } why) return new(null, why);
        return await Treating.RecordAsync(
            recorder,
            permit,
            Right.Decide,
            site =>
            {
                if (site.Find(number) is not { } one) return Attempt.Refuse($"There is no non-conformance {number} on this site.");
                Treating.DemandOther(
                    permit,
                    one.Steps.Where(step => step.Kind == RecordKind.EvidenceGiven).Select(step => step.By).Append(one.Proposal?.By),
                    "You made the proposal or gave the evidence yourself.");
                if (!one.IsShown(seen)) return Attempt.Stale(one.Steps[^1]);
                return one.Stage == Stage.ToVerify
                    ? Attempt.Record(number, new ClosureDecidedBody(number, verified, (comment ?? "").Trim(), one.Shown(), seen.ToLowerInvariant()))
                    : Attempt.Refuse($"Non-conformance {number} does not wait for a verification: nothing says yet that the work is done.");
            },
            cancellation);
    }
}
