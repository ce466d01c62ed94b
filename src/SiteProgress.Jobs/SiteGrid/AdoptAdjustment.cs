using System.Globalization;
using NodaTime;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.SiteGrid;

/// <summary>
/// Adopts a proposed adjustment as the next revision. What comes in from then on is put on the site grid by it; what came in
/// before keeps the one it was made with.
/// </summary>
public sealed class AdoptAdjustment(SiteRecorder recorder, TimeProvider clock)
{
    /// <summary>Longest reason, characters.</summary>
    public static int MostReasonCharacters => ReasonText.MostCharacters;

    /// <summary>Adopts a proposal.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="proposal">The proposal; it is worked out anew under the lock.</param>
    /// <param name="seenRevision">The adjustment that was in force when the person looked.</param>
    /// <param name="warningsRead">True when the person says that the warnings were read.</param>
    /// <param name="reason">Why.</param>
    /// <param name="cancellation">Stops the work; nothing is recorded then.</param>
    /// <returns>The new revision, or why nothing was adopted.</returns>
    [Needs(Right.KeepSurvey)]
    public async Task<(int? Revision, string? Refusal)> RunAsync(
        Permit permit, AdjustmentProposal proposal, int seenRevision, bool warningsRead, string reason, CancellationToken cancellation)
    {
        permit.Demand(Right.KeepSurvey);
        ArgumentNullException.ThrowIfNull(proposal);
        if (ReasonText.WhyNot(reason) is { } why) return (null, why);
        string? refusal = null;
        int? revision = null;
        await recorder.AppendAsync(
            permit,
            Right.KeepSurvey,
            history =>
            {
                WorkedOutProposal? worked = ProposalWork.WorkOut(history, proposal, Instant.FromDateTimeOffset(clock.GetUtcNow()));
                refusal = WhyNot(worked, seenRevision, warningsRead);
                if (refusal is not null) return [];
                revision = worked!.Body!.Adjustment.Revision;
                return [worked.Body with { Reason = reason.Trim() }];
            },
            cancellation);
        return refusal is null ? (revision, null) : (null, refusal);
    }

    private static string? WhyNot(WorkedOutProposal? worked, int seenRevision, bool warningsRead)
    {
        if (worked is null) return "The site has no adjustment yet; the operator opens it with one.";
        if (worked.InForce != seenRevision)
            return string.Create(CultureInfo.InvariantCulture, $"Revision {worked.InForce} was adopted meanwhile, after you looked at revision {seenRevision}. Look at what changes once more.");
        if (worked.Reading.ProblemCount > 0) return $"The list has {worked.Reading.ProblemCount} problems. {worked.Reading.Problems[0].Sentence}";
        if (worked.Body is null) return worked.Refusal;
        return worked.Warnings.Count > 0 && !warningsRead ? "There are warnings. Read them, then say that you did." : null;
    }
}
