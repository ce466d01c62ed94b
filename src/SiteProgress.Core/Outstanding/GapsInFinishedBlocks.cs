using NetTopologySuite.Geometries;
using NetTopologySuite.Index.HPRtree;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Outstanding;

/// <summary>A planned pile as this search sees it.</summary>
/// <param name="Number">Pile number.</param>
/// <param name="Zone">Code of its zone.</param>
/// <param name="Position">Design position, site grid.</param>
/// <param name="IsBuilt">True when something stands for it.</param>
/// <param name="IsLeft">True when it is still to be built and nothing explains why: no record waits for it.</param>
public sealed record PlaceInPattern(string Number, string Zone, SiteCoordinate Position, bool IsBuilt, bool IsLeft);

/// <summary>A pile that was left out where the work around it is done.</summary>
/// <param name="Number">Pile number.</param>
/// <param name="Neighbours">How many neighbours the design gives it.</param>
/// <param name="BuiltNeighbours">How many of them are built.</param>
public sealed record Gap(string Number, int Neighbours, int BuiltNeighbours);

/// <summary>
/// Finds outstanding piles inside finished blocks. A pile is a gap when its design neighbours (same zone: the next along, across
/// and diagonally in a square or rectangular pattern, the six next in a triangular one) are all built, or all but one where it
/// has the full ring of them, so that two piles left out side by side are found as well. At the edge of a zone, where the ring is
/// not full, all neighbours must be built, and there must be at least three. The row in progress is no gap: the piles after it are
/// not built. (Our definition; common practice, no source.)
/// </summary>
public static class GapsInFinishedBlocks
{
    private const int LeastNeighbours = 3;

    /// <summary>The gaps of a site, in the order of the piles.</summary>
    /// <param name="piles">All planned piles that are not cancelled.</param>
    /// <param name="zones">Zones with pattern and spacing; a pile of another zone is passed over.</param>
    public static IReadOnlyList<Gap> Find(IReadOnlyCollection<PlaceInPattern> piles, IEnumerable<Zone> zones)
    {
        ArgumentNullException.ThrowIfNull(piles);
        ArgumentNullException.ThrowIfNull(zones);
        Dictionary<string, DesignRing> rings = zones.ToDictionary(zone => zone.Code, DesignRing.Of, StringComparer.OrdinalIgnoreCase);
        HPRtree<PlaceInPattern> index = new();
        foreach (PlaceInPattern pile in piles) index.Insert(Around(pile.Position, 0), pile);
        index.Build();
        List<Gap> gaps = [];
        foreach (PlaceInPattern pile in piles.Where(one => one.IsLeft))
        {
            if (rings.TryGetValue(pile.Zone, out DesignRing? ring) && GapAt(pile, ring, index) is { } gap) gaps.Add(gap);
        }

        return gaps;
    }

    private static Gap? GapAt(PlaceInPattern pile, DesignRing ring, HPRtree<PlaceInPattern> index)
    {
        PlaceInPattern[] neighbours = index.Query(Around(pile.Position, ring.ReachMetres))
            .Where(other => !ReferenceEquals(other, pile)
                && string.Equals(other.Zone, pile.Zone, StringComparison.OrdinalIgnoreCase)
                && DistanceMetres(other.Position, pile.Position) <= ring.ReachMetres)
            .ToArray();
        int built = neighbours.Count(other => other.IsBuilt);
        int mayBeLeft = neighbours.Length >= ring.FullCount ? 1 : 0;
        return neighbours.Length >= LeastNeighbours && built >= neighbours.Length - mayBeLeft
            ? new Gap(pile.Number, neighbours.Length, built)
            : null;
    }

    private static Envelope Around(SiteCoordinate at, double reach)
        => new(at.XMetres - reach, at.XMetres + reach, at.YMetres - reach, at.YMetres + reach);

    private static double DistanceMetres(SiteCoordinate a, SiteCoordinate b)
        => Math.Sqrt(((a.XMetres - b.XMetres) * (a.XMetres - b.XMetres)) + ((a.YMetres - b.YMetres) * (a.YMetres - b.YMetres)));
}
