using NodaTime;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.SiteGrid;

/// <summary>Works a proposed adjustment out and says, by the very rules that adopting it will use, what adopting it would change. Records nothing.</summary>
public sealed class ProposeAdjustment(SiteHistories histories, TimeProvider clock)
{
    /// <summary>Longest list of control points, characters.</summary>
    public static int MostCharacters => 400_000;

    /// <summary>The proposal worked out; null before the site has an adjustment.</summary>
    [Needs(Right.KeepSurvey)]
    public async Task<WorkedOutProposal?> RunAsync(Permit permit, AdjustmentProposal proposal, CancellationToken cancellation)
    {
        permit.Demand(Right.KeepSurvey);
        ArgumentNullException.ThrowIfNull(proposal);
        SiteHistory history = await histories.ReadAsync(permit.Site, cancellation);
        WorkedOutProposal? worked = ProposalWork.WorkOut(history, proposal, Instant.FromDateTimeOffset(clock.GetUtcNow()));
        return worked?.Body is not { } body ? worked
            : worked with { Effect = AdjustmentEffect.Of(history, body, ProposalWork.Suppose(history, body)) };
    }
}
