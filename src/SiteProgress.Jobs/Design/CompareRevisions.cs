using SiteProgress.Core.Derivation;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Design;

/// <summary>What differs between two revisions of the design.</summary>
public sealed class CompareRevisions(SiteHistories histories)
{
    /// <summary>Two revisions compared.</summary>
    /// <param name="From">The first; null for the empty design before the first revision.</param>
    /// <param name="To">The second.</param>
    /// <param name="Revisions">Revisions that count, in order.</param>
    /// <param name="Comparison">What differs.</param>
    /// <param name="TimeZone">Time zone of the site.</param>
    /// <param name="RecordSequence">The last record this follows from.</param>
    public sealed record View(
        DesignRevision? From, DesignRevision To, IReadOnlyList<DesignRevision> Revisions, DesignComparison Comparison, string TimeZone, long RecordSequence);

    /// <summary>Compares; null where the site has no such revision that counts.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="from">Number of the first; null for the one before the second. 0 for the empty design.</param>
    /// <param name="to">Number of the second; null for the last.</param>
    /// <param name="cancellation">Stops the work.</param>
    [Needs(Right.See)]
    public async Task<View?> RunAsync(Permit permit, int? from, int? to, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        DerivedSite site = await histories.ReadDerivedAsync(permit.Site, cancellation);
        DesignRevision[] revisions = [.. (site.Design?.Revisions ?? []).Where(one => one.Counts)];
        if ((to is { } asked ? Array.Find(revisions, one => one.Number == asked) : revisions.LastOrDefault()) is not { } second) return null;
        DesignRevision? first = from is { } number ? Array.Find(revisions, one => one.Number == number) : revisions.LastOrDefault(one => one.Number < second.Number);
        if (first is null && from is not (null or 0)) return null;
        IReadOnlyList<PlannedPile> before = first is null ? [] : site.Design!.After(first.Number);
        return new View(
            first, second, revisions, DesignComparison.Of(site, before, site.Design!.After(second.Number)), site.History.Settings!.TimeZone, site.History.Sequence);
    }
}
