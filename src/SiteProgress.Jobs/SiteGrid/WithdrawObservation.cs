using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.SiteGrid;

/// <summary>Withdraws an observation of a control point: it stays, and no longer counts.</summary>
public sealed class WithdrawObservation(SiteRecorder recorder)
{
    /// <summary>Withdraws an observation.</summary>
    /// <returns>Null, or why it was not withdrawn.</returns>
    [Needs(Right.KeepSurvey)]
    public async Task<string?> RunAsync(Permit permit, long observation, string reason, CancellationToken cancellation)
    {
        permit.Demand(Right.KeepSurvey);
        if (ReasonText.WhyNot(reason) is { } why) return why;
        string? refusal = null;
        await recorder.AppendAsync(
            permit,
            Right.KeepSurvey,
            history =>
            {
                ControlPointObservation? found = history.Observations.FirstOrDefault(one => one.Sequence == observation);
                refusal = found is null ? $"There is no observation {observation} on this site."
                    : found.Withdrawal is { } withdrawal ? $"The observation was withdrawn already ({withdrawal.Reason})."
                    : null;
                return refusal is null ? [new ObservationWithdrawnBody(observation, reason.Trim())] : [];
            },
            cancellation);
        return refusal;
    }
}
