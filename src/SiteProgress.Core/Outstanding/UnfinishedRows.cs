using NetTopologySuite.Geometries;
using NetTopologySuite.Index.HPRtree;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Outstanding;

/// <summary>
/// Finds rows that were left unfinished: stretches of at least three outstanding piles side by side in a row of the pattern, with every
/// design neighbour in the rows on both sides built. One or two left out are gaps. The row in progress is none while nothing is built
/// beyond it; a last strip between two finished blocks is one until it is done. (Our definition; common practice, no source.)
/// </summary>
public static class UnfinishedRows
{
    private const int LeastPiles = 3;

    // Design positions are exact to the millimetre; the next spacing of a pattern differs by more than this share.
    private const double SpacingShare = 0.03;

    // What lies further off the line of the row than this share of the spacing belongs to another row.
    private const double OffRowShare = 0.3;

    /// <summary>Numbers of the piles of unfinished rows.</summary>
    /// <param name="piles">All planned piles that are not cancelled.</param>
    /// <param name="zones">Zones with pattern and spacing; a pile of another zone is passed over.</param>
    public static IReadOnlySet<string> Find(IReadOnlyCollection<PlaceInPattern> piles, IEnumerable<Zone> zones)
    {
        ArgumentNullException.ThrowIfNull(piles);
        ArgumentNullException.ThrowIfNull(zones);
        Dictionary<string, Zone> byCode = zones.ToDictionary(zone => zone.Code, StringComparer.OrdinalIgnoreCase);
        HPRtree<PlaceInPattern> index = new();
        foreach (PlaceInPattern pile in piles) index.Insert(new Envelope(pile.Position.XMetres, pile.Position.XMetres, pile.Position.YMetres, pile.Position.YMetres), pile);
        index.Build();
        HashSet<string> found = [];
        foreach (PlaceInPattern pile in piles.Where(one => one.IsLeft && !found.Contains(one.Number)))
        {
            if (!byCode.TryGetValue(pile.Zone, out Zone? zone)) continue;
            double reach = DesignRing.Of(zone).ReachMetres;
            foreach (PlaceInPattern next in Neighbours(pile, reach, index).Where(other => other.IsLeft && IsNextInPattern(pile, other, zone)))
            {
                List<PlaceInPattern> row = [.. Stretch(next, pile, zone, reach, index).Reverse(), .. Stretch(pile, next, zone, reach, index)];
                if (row.Count >= LeastPiles) found.UnionWith(row.Select(one => one.Number));
            }
        }

        return found;
    }

    /// <summary>Piles of the row from one on, away from the one before it, as long as they are left and passed on both sides.</summary>
    private static IEnumerable<PlaceInPattern> Stretch(PlaceInPattern before, PlaceInPattern first, Zone zone, double reach, HPRtree<PlaceInPattern> index)
    {
        double stepX = first.Position.XMetres - before.Position.XMetres, stepY = first.Position.YMetres - before.Position.YMetres;
        double tolerance = OffRowShare * zone.SpacingMetres;
        PlaceInPattern? at = first;
        while (at is { IsLeft: true })
        {
            PlaceInPattern[] around = Neighbours(at, reach, index);
            if (!IsPassedOnBothSides(at, around, stepX, stepY, tolerance)) yield break;
            yield return at;
            (double x, double y) = (at.Position.XMetres + stepX, at.Position.YMetres + stepY);
            at = around.FirstOrDefault(other => Math.Abs(other.Position.XMetres - x) < tolerance && Math.Abs(other.Position.YMetres - y) < tolerance);
        }
    }

    private static bool IsPassedOnBothSides(PlaceInPattern pile, PlaceInPattern[] around, double stepX, double stepY, double tolerance)
    {
        double length = Math.Sqrt((stepX * stepX) + (stepY * stepY));
        int left = 0, right = 0;
        foreach (PlaceInPattern other in around)
        {
            double off = ((stepX * (other.Position.YMetres - pile.Position.YMetres)) - (stepY * (other.Position.XMetres - pile.Position.XMetres))) / length;
            if (Math.Abs(off) <= tolerance) continue;
            if (!other.IsBuilt) return false;
            if (off > 0) left++;
            else right++;
        }

        return left > 0 && right > 0;
    }

    private static bool IsNextInPattern(PlaceInPattern pile, PlaceInPattern other, Zone zone)
    {
        double apart = Distance(pile, other);
        return Is(zone.SpacingMetres) || (zone.SecondSpacingMetres is { } second && Is(second));
        bool Is(double spacing) => Math.Abs(apart - spacing) <= SpacingShare * spacing;
    }

    private static PlaceInPattern[] Neighbours(PlaceInPattern pile, double reach, HPRtree<PlaceInPattern> index)
        => index.Query(new Envelope(pile.Position.XMetres - reach, pile.Position.XMetres + reach, pile.Position.YMetres - reach, pile.Position.YMetres + reach))
            .Where(other => !ReferenceEquals(other, pile) && string.Equals(other.Zone, pile.Zone, StringComparison.OrdinalIgnoreCase) && Distance(pile, other) <= reach)
            .ToArray();

    private static double Distance(PlaceInPattern a, PlaceInPattern b)
        => Math.Sqrt(((a.Position.XMetres - b.Position.XMetres) * (a.Position.XMetres - b.Position.XMetres)) + ((a.Position.YMetres - b.Position.YMetres) * (a.Position.YMetres - b.Position.YMetres)));
}
