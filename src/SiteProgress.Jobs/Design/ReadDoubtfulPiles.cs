using SiteProgress.Core.Derivation;
using SiteProgress.Core.Design;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Design;

/// <summary>
/// Planned piles that contradict each other or the outlines of the zones. Additional piles of dispositions are left out: somebody approved
/// where they stand.
/// </summary>
public sealed class ReadDoubtfulPiles(SiteHistories histories)
{
    /// <summary>The doubtful piles of a site.</summary>
    /// <param name="Doubtful">What was found.</param>
    /// <param name="Held">How many planned piles were looked at.</param>
    /// <param name="Axes">Names of the axes of the site grid.</param>
    /// <param name="RecordSequence">The last record this follows from.</param>
    public sealed record View(DoubtfulPiles Doubtful, int Held, GridAxes Axes, long RecordSequence);

    /// <summary>Finds them.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="cancellation">Stops the work.</param>
    [Needs(Right.See)]
    public async Task<View> RunAsync(Permit permit, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        DerivedSite site = await histories.ReadDerivedAsync(permit.Site, cancellation);
        PlannedPile[] planned = [.. (site.Design?.Piles ?? []).Where(pile => pile is { TakenOutBy: null, Last.Revision: > 0 }).Select(pile => pile.Last.Pile)];
        return new View(
            DoubtfulPiles.Among(planned, site.History.Settings?.Zones ?? []), planned.Length, site.History.Settings?.GridAxes ?? new GridAxes("X", "Y"), site.History.Sequence);
    }
}
