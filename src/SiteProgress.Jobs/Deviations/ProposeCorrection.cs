using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Deviations;

/// <summary>
/// Proposes a correction of recorded positions, or shows beforehand what it would change. Nothing follows from a proposal until another
/// person adopts it; the records themselves stay as they came in.
/// </summary>
public sealed class ProposeCorrection(SiteRecorder recorder, SiteHistories histories)
{
    /// <summary>What adopting the correction would change.</summary>
    /// <returns>The effect, or why the correction cannot be proposed.</returns>
    [Needs(Right.Propose)]
    public async Task<(CorrectionEffect? Effect, string? Refusal)> PreviewAsync(Permit permit, CorrectionRequest request, CancellationToken cancellation)
    {
        permit.Demand(Right.Propose);
        ArgumentNullException.ThrowIfNull(request);
        SiteHistory history = await histories.ReadAsync(permit.Site, cancellation);
        (CorrectionProposedBody? body, int withoutHeading, string? refusal) = CorrectionWork.Of(history, request);
        return body is null ? (null, refusal) : (CorrectionWork.Effect(history, body, withoutHeading), null);
    }

    /// <summary>Records the proposal.</summary>
    /// <returns>Sequence of the proposal, or why it was not recorded.</returns>
    [Needs(Right.Propose)]
    public async Task<(long? Sequence, string? Refusal)> RunAsync(Permit permit, CorrectionRequest request, CancellationToken cancellation)
    {
        permit.Demand(Right.Propose);
        ArgumentNullException.ThrowIfNull(request);
        string? refusal = null;
        RecordedRange range = await recorder.AppendAsync(
            permit,
            Right.Propose,
            history =>
            {
                (CorrectionProposedBody? body, _, refusal) = CorrectionWork.Of(history, request);
                return body is null ? [] : [body];
            },
            cancellation);
        return refusal is null ? (range.First, null) : (null, refusal);
    }
}
