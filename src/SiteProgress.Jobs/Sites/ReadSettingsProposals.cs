using SiteProgress.Core.Derivation;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Sites;

/// <summary>The settings that were proposed because they touch the contract, and what they would change.</summary>
public sealed class ReadSettingsProposals(SiteHistories histories)
{
    /// <summary>All proposals, the latest first.</summary>
    [Needs(Right.See)]
    public async Task<IReadOnlyList<SettingsProposal>> RunAsync(Permit permit, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        return [.. (await histories.ReadAsync(permit.Site, cancellation)).SettingsProposals.Reverse()];
    }

    /// <summary>One proposal with what it changes, while it waits; null where there is none of this record.</summary>
    [Needs(Right.See)]
    public async Task<ShownSettingsProposal?> OneAsync(Permit permit, long proposal, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        DerivedSite site = await histories.ReadDerivedAsync(permit.Site, cancellation);
        return site.History.SettingsProposals.FirstOrDefault(one => one.Sequence == proposal) is not { } found ? null
            : new ShownSettingsProposal(
                found, found.Waits ? SettingsProposalWork.WorkOut(site, found.Body.Settings).WithEffect(site) : null, found.By == SiteRecorder.AccountName(permit.Account), site.History.Settings!.TimeZone);
    }
}

/// <summary>A proposal as it is put before a person.</summary>
/// <param name="Proposal">The proposal.</param>
/// <param name="Worked">What it changes; null once it is decided or overtaken.</param>
/// <param name="Own">True for who proposed it.</param>
/// <param name="TimeZone">Time zone of the site.</param>
public sealed record ShownSettingsProposal(SettingsProposal Proposal, WorkedOutSettings? Worked, bool Own, string TimeZone);
