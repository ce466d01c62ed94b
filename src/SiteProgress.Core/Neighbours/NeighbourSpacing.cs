using NetTopologySuite.Geometries;
using NetTopologySuite.Index.HPRtree;
using SiteProgress.Core.Coordinates;

namespace SiteProgress.Core.Neighbours;

/// <summary>A built pile as the search for gaps and overlaps sees it.</summary>
/// <param name="Number">Pile number.</param>
/// <param name="Zone">Zone.</param>
/// <param name="Design">Design position, site grid.</param>
/// <param name="AsBuilt">As-built position, site grid.</param>
/// <param name="DesignDiameterMetres">Design diameter, metres.</param>
/// <param name="AsBuiltDiameterMetres">Mean equivalent diameter of the sand in the pile, metres; the design diameter where it is not known.</param>
/// <param name="IsWithinLimit">True when the pile itself is within its position limit.</param>
public sealed record BuiltNeighbour(
    string Number, string Zone, SiteCoordinate Design, SiteCoordinate AsBuilt, double DesignDiameterMetres, double AsBuiltDiameterMetres, bool IsWithinLimit);

/// <summary>Two neighbours of the design as they were built.</summary>
/// <param name="One">One pile.</param>
/// <param name="Other">The other.</param>
/// <param name="DesignMetres">Distance of the design positions, metres.</param>
/// <param name="AsBuiltMetres">Distance of the as-built positions, metres.</param>
public sealed record NeighbourPair(BuiltNeighbour One, BuiltNeighbour Other, double DesignMetres, double AsBuiltMetres)
{
    /// <summary>As-built less design spacing, metres: more leaves a gap, less an overlap.</summary>
    public double DifferenceMetres => AsBuiltMetres - DesignMetres;

    /// <summary>Between the faces of the two piles as built, metres; negative where they overlap.</summary>
    public double ClearMetres => AsBuiltMetres - ((One.AsBuiltDiameterMetres + Other.AsBuiltDiameterMetres) / 2);

    /// <summary>Between the faces of the two piles as designed, metres.</summary>
    public double DesignClearMetres => DesignMetres - ((One.DesignDiameterMetres + Other.DesignDiameterMetres) / 2);

    /// <summary>True when each of the two is within its own limit: nothing else tells of the gap or overlap.</summary>
    public bool BothWithinLimit => One.IsWithinLimit && Other.IsWithinLimit;
}

/// <summary>What the spacing of neighbours amounts to.</summary>
/// <param name="Pairs">Pairs of neighbours of which both are built.</param>
/// <param name="Wider">Pairs farther apart than designed by more than what is allowed, the widest first.</param>
/// <param name="Closer">Pairs closer than designed by more than what is allowed, the closest first.</param>
/// <param name="Difference">Mean and spread of as-built less design spacing; null without a pair.</param>
public sealed record SpacingReview(
    int Pairs, IReadOnlyList<NeighbourPair> Wider, IReadOnlyList<NeighbourPair> Closer, Deviations.AxisFigures? Difference);

/// <summary>
/// Holds the spacing of built neighbours against the design: two piles each within its limit may still leave a gap, or overlap. Neighbours
/// are piles of one zone whose design positions lie within the zone's reach. (Our definition; common practice, no source.)
/// </summary>
public static class NeighbourSpacing
{
    /// <summary>Reviews all pairs of neighbours.</summary>
    /// <param name="piles">Built piles with a judged position, any order.</param>
    /// <param name="reachMetres">Of each zone how far apart design positions of neighbours lie at most, metres; other zones are passed over.</param>
    /// <param name="wider">By how much a pair may be farther apart than designed, metres (&lt;=).</param>
    /// <param name="closer">By how much a pair may be closer than designed, metres (&lt;=).</param>
    public static SpacingReview Review(
        IReadOnlyCollection<BuiltNeighbour> piles, IReadOnlyDictionary<string, double> reachMetres, Func<BuiltNeighbour, double> wider, Func<BuiltNeighbour, double> closer)
    {
        ArgumentNullException.ThrowIfNull(piles);
        ArgumentNullException.ThrowIfNull(reachMetres);
        ArgumentNullException.ThrowIfNull(wider);
        ArgumentNullException.ThrowIfNull(closer);
        NeighbourPair[] pairs = Pairs(piles, reachMetres).ToArray();
        return new SpacingReview(
            pairs.Length,
            pairs.Where(pair => !Deviations.AgainstLimit.IsAtMost(pair.DifferenceMetres, wider(pair.One))).OrderByDescending(pair => pair.DifferenceMetres).ToArray(),
            pairs.Where(pair => !Deviations.AgainstLimit.IsAtMost(-pair.DifferenceMetres, closer(pair.One))).OrderBy(pair => pair.DifferenceMetres).ToArray(),
            pairs.Length == 0 ? null : Deviations.AxisFigures.Of(Array.ConvertAll(pairs, pair => pair.DifferenceMetres)));
    }

    private static IEnumerable<NeighbourPair> Pairs(IReadOnlyCollection<BuiltNeighbour> piles, IReadOnlyDictionary<string, double> reachMetres)
    {
        BuiltNeighbour[] known = piles.Where(pile => reachMetres.ContainsKey(pile.Zone) && double.IsFinite(pile.AsBuilt.XMetres + pile.AsBuilt.YMetres)).ToArray();
        HPRtree<int> index = new();
        for (int place = 0; place < known.Length; place++) index.Insert(Around(known[place].Design, 0), place);
        index.Build();
        for (int place = 0; place < known.Length; place++)
        {
            BuiltNeighbour one = known[place];
            double reach = reachMetres[one.Zone];
            foreach (int found in index.Query(Around(one.Design, reach)))
            {
                BuiltNeighbour other = known[found];
                // Each pair once; a pile of another zone has another design and is no neighbour of its pattern.
                if (found <= place || other.Zone != one.Zone) continue;
                double design = Distance(one.Design, other.Design);
                if (design <= reach) yield return new NeighbourPair(one, other, design, Distance(one.AsBuilt, other.AsBuilt));
            }
        }
    }

    private static Envelope Around(SiteCoordinate at, double reach) => new(at.XMetres - reach, at.XMetres + reach, at.YMetres - reach, at.YMetres + reach);

    private static double Distance(SiteCoordinate one, SiteCoordinate other)
        => Math.Sqrt(Math.Pow(one.XMetres - other.XMetres, 2) + Math.Pow(one.YMetres - other.YMetres, 2));
}
