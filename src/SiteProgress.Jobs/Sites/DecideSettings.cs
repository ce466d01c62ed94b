using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Sites;

/// <summary>Approves or refuses proposed settings that touch the contract. Nobody decides their own proposal.</summary>
public sealed class DecideSettings(SiteRecorder recorder)
{
    /// <summary>Records the decision; approved settings are in force from then on.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="proposal">Sequence of the proposal.</param>
    /// <param name="approve">True to put it in force.</param>
    /// <param name="comment">What is said to it; the owner's reference where it is approved.</param>
    /// <param name="seen">Hash of the proposed settings as shown.</param>
    /// <param name="cancellation">Stops the work; nothing is recorded then.</param>
    /// <returns>Null, or why nothing was decided.</returns>
    [Needs(Right.ApproveLimits)]
    public async Task<string?> RunAsync(Permit permit, long proposal, bool approve, string comment, string seen, CancellationToken cancellation)
    {
        permit.Demand(Right.ApproveLimits);
        if (ReasonText.WhyNot(comment, "The comment") is { } why) return why;
        string? refusal = null;
        await recorder.AppendAsync(
            permit,
            Right.ApproveLimits,
            history =>
            {
                SettingsProposal? found = history.SettingsProposals.FirstOrDefault(one => one.Sequence == proposal);
                refusal = found switch
                {
                    null => $"There is no proposal of settings in record {proposal}.",
                    { Decision: { } decision } => $"The proposal of record {proposal} was {(decision.Body.Approved ? "approved" : "refused")} already, in record {decision.Sequence}. Nothing of yours was recorded.",
                    { Overtaken: { } by } => $"Record {by} revised the settings after this was proposed; there is nothing left to decide.",
                    _ when found.By == SiteRecorder.AccountName(permit.Account) => "You proposed this yourself; another person decides.",
                    _ when !string.Equals(SettingsProposalWork.HashOf(found.Body.Settings), seen, StringComparison.OrdinalIgnoreCase) => "What you were shown is not what was proposed. Look at it once more.",
                    _ => null,
                };
                return refusal is null ? [new SettingsDecidedBody(proposal, approve, comment.Trim(), seen.ToLowerInvariant())] : [];
            },
            cancellation);
        return refusal;
    }
}
