using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.RecordsIn;

/// <summary>Withdraws a batch: its records stay, and no longer count.</summary>
public sealed class WithdrawBatch(SiteRecorder recorder)
{
    /// <summary>Longest reason, characters.</summary>
    public static int MostReasonCharacters => ReasonText.MostCharacters;

    /// <summary>Withdraws a batch.</summary>
    /// <returns>Null, or why it was not withdrawn.</returns>
    [Needs(Right.BringIn)]
    public async Task<string?> RunAsync(Permit permit, long batch, string reason, CancellationToken cancellation)
    {
        permit.Demand(Right.BringIn);
        if (ReasonText.WhyNot(reason) is { } why) return why;
        string? refusal = null;
        await recorder.AppendAsync(
            permit,
            Right.BringIn,
            history =>
            {
                Batch? found = history.Batches.FirstOrDefault(one => one.Sequence == batch);
                refusal =
                    found is null ? $"There is no batch {batch} on this site."
                    : found.Withdrawal is { } withdrawal ? $"Batch {batch} was withdrawn already ({withdrawal.Reason})."
                    : null;
                return refusal is null ? [new BatchWithdrawnBody(batch, reason.Trim())] : [];
            },
            cancellation);
        return refusal;
    }
}
