using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;
using SiteProgress.Jobs.RecordsIn;

namespace SiteProgress.Jobs.Deviations;

/// <summary>Adopts or refuses a proposed correction. Nobody decides their own proposal.</summary>
public sealed class DecideCorrection(SiteRecorder recorder)
{
    /// <summary>Records the decision.</summary>
    /// <returns>Null, or why nothing was decided.</returns>
    [Needs(Right.Decide)]
    public async Task<string?> RunAsync(Permit permit, long correction, bool adopt, string reason, CancellationToken cancellation)
    {
        permit.Demand(Right.Decide);
        if (CorrectionReason.Problem(reason) is { } problem) return problem;
        string? refusal = null;
        await recorder.AppendAsync(
            permit,
            Right.Decide,
            history =>
            {
                PositionCorrection? found = history.Corrections.FirstOrDefault(one => one.Sequence == correction);
                refusal = found switch
                {
                    null => $"There is no correction {correction} on this site.",
                    { Withdrawal: not null } => $"Correction {correction} was withdrawn; there is nothing to decide.",
                    { Decision: { } decision } => $"Correction {correction} was {(decision.Adopted ? "adopted" : "refused")} already ({decision.Reason}).",
                    _ when found.ProposedBy == SiteRecorder.AccountName(permit.Account) => "You proposed this correction yourself; another person decides.",
                    _ => null,
                };
                return refusal is null ? [new CorrectionDecidedBody(correction, adopt, reason.Trim())] : [];
            },
            cancellation);
        return refusal;
    }
}

/// <summary>Withdraws a correction: positions count as recorded again.</summary>
public sealed class WithdrawCorrection(SiteRecorder recorder)
{
    /// <summary>Records the withdrawal.</summary>
    /// <returns>Null, or why it was not withdrawn.</returns>
    [Needs(Right.Propose)]
    public async Task<string?> RunAsync(Permit permit, long correction, string reason, CancellationToken cancellation)
    {
        permit.Demand(Right.Propose);
        if (CorrectionReason.Problem(reason) is { } problem) return problem;
        string? refusal = null;
        await recorder.AppendAsync(
            permit,
            Right.Propose,
            history =>
            {
                PositionCorrection? found = history.Corrections.FirstOrDefault(one => one.Sequence == correction);
                refusal =
                    found is null ? $"There is no correction {correction} on this site."
                    : found.Withdrawal is { } withdrawal ? $"Correction {correction} was withdrawn already ({withdrawal.Reason})."
                    : null;
                return refusal is null ? [new CorrectionWithdrawnBody(correction, reason.Trim())] : [];
            },
            cancellation);
        return refusal;
    }
}

/// <summary>What a reason must be.</summary>
internal static class CorrectionReason
{
    /// <summary>What is wrong with a reason; null where nothing is.</summary>
    public static string? Problem(string reason)
    {
        return ReasonText.WhyNot(reason);
    }
}
