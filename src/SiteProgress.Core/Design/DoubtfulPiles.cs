using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Design.Layouts;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Design;

/// <summary>Why a planned pile is doubtful.</summary>
public enum DoubtKind
{
    /// <summary>Another planned pile has the same place: doubled, across zones or in one.</summary>
    Doubled = 1,

    /// <summary>Another planned pile stands closer than the two can.</summary>
    TooClose = 2,

    /// <summary>It lies in the outline of another zone and not in that of its own.</summary>
    InOtherZone = 3,

    /// <summary>It lies in the outlines of two zones or more.</summary>
    InTwoZones = 4,

    /// <summary>It lies in the outline of no zone.</summary>
    InNoZone = 5,
}

/// <summary>A doubt about a planned pile.</summary>
/// <param name="Kind">Why.</param>
/// <param name="Pile">The pile; of a pair the one whose number comes first.</param>
/// <param name="Other">The other pile of a pair.</param>
/// <param name="ApartMetres">How far apart the two are, metres.</param>
/// <param name="LeastMetres">How far apart they would have to be at least, metres.</param>
/// <param name="LiesIn">Codes of the zones in whose outlines the pile lies; null of a pair.</param>
public sealed record PileDoubt(DoubtKind Kind, PlannedPile Pile, PlannedPile? Other, double? ApartMetres, double? LeastMetres, IReadOnlyList<string>? LiesIn);

/// <summary>
/// Planned piles that contradict each other or the outlines of the zones. The schedule decides all the same: a pile's zone and place are what
/// it says, and these are questions to whoever drew it. (Common practice, no source.)
/// </summary>
/// <param name="Doubts">The doubts, by kind and number.</param>
/// <param name="UnusableOutlines">Codes of zones whose outline crosses itself or has no area, so that nothing could be held against it, with what was found.</param>
public sealed record DoubtfulPiles(IReadOnlyList<PileDoubt> Doubts, IReadOnlyList<(string Zone, string Found)> UnusableOutlines)
{
    /// <summary>How many there are of a kind.</summary>
    public int Count(DoubtKind kind) => Doubts.Count(doubt => doubt.Kind == kind);

    /// <summary>
    /// Finds them. Two piles are too close where their centres are nearer than the mean of their diameters, or than half the least spacing of
    /// their zones; a millimetre is taken for rounding. A point that near to an outline is in it.
    /// </summary>
    /// <param name="planned">Planned piles, site grid, metres.</param>
    /// <param name="zones">Zones of the settings; one without an outline holds nothing against its piles.</param>
    public static DoubtfulPiles Among(IReadOnlyCollection<PlannedPile> planned, IReadOnlyList<Zone> zones)
    {
        ArgumentNullException.ThrowIfNull(planned);
        ArgumentNullException.ThrowIfNull(zones);
        Dictionary<string, double> half = zones.GroupBy(zone => zone.Code, StringComparer.OrdinalIgnoreCase)
            .ToDictionary(group => group.Key, group => group.First().ReachMetres, StringComparer.OrdinalIgnoreCase);
        (IReadOnlyList<(string Code, SitePolygon Outline)> outlines, IReadOnlyList<(string, string)> unusable) = Outlines(zones);
        PileDoubt[] doubts = [.. Pairs(planned, half).Concat(Misplaced(planned, outlines))];
        return new DoubtfulPiles([.. doubts.OrderBy(doubt => doubt.Kind).ThenBy(doubt => doubt.Pile.Number, StringComparer.Ordinal).ThenBy(doubt => doubt.Other?.Number, StringComparer.Ordinal)], unusable);
    }

    private static IEnumerable<PileDoubt> Pairs(IReadOnlyCollection<PlannedPile> planned, Dictionary<string, double> half)
    {
        if (planned.Count < 2) yield break;
        double reach = Math.Max(DesignPairs.SamePlaceMetres * 2, planned.Max(pile => pile.DiameterMetres));
        foreach (PlannedPile pile in planned) reach = Math.Max(reach, half.GetValueOrDefault(pile.Zone));
        PlaceIndex places = new(planned, reach);
        foreach (PlannedPile pile in planned)
        {
            foreach (PlannedPile other in places.Near(pile.Position))
            {
                // Each pair once.
                if (string.CompareOrdinal(pile.Number, other.Number) >= 0) continue;
                double apart = DesignPairs.Apart(pile.Position, other.Position);
                double least = Math.Max((pile.DiameterMetres + other.DiameterMetres) / 2, Math.Min(Half(pile), Half(other)));
                if (DesignPairs.IsSamePlace(apart)) yield return new PileDoubt(DoubtKind.Doubled, pile, other, apart, least, null);
                else if (apart < least - SitePolygon.OnBoundaryMetres) yield return new PileDoubt(DoubtKind.TooClose, pile, other, apart, least, null);
            }
        }

        double Half(PlannedPile pile) => half.GetValueOrDefault(pile.Zone);
    }

    private static IEnumerable<PileDoubt> Misplaced(IReadOnlyCollection<PlannedPile> planned, IReadOnlyList<(string Code, SitePolygon Outline)> outlines)
    {
        if (outlines.Count == 0) yield break;
        HashSet<string> drawn = new(outlines.Select(one => one.Code), StringComparer.OrdinalIgnoreCase);
        foreach (PlannedPile pile in planned)
        {
            bool own = false;
            int count = 0;
            foreach ((string code, SitePolygon outline) in outlines)
            {
                if (!outline.Contains(pile.Position)) continue;
                count++;
                own |= string.Equals(code, pile.Zone, StringComparison.OrdinalIgnoreCase);
            }

            if ((own && count == 1) || (count == 0 && !drawn.Contains(pile.Zone))) continue;
            DoubtKind kind = count == 0 ? DoubtKind.InNoZone : count > 1 ? DoubtKind.InTwoZones : DoubtKind.InOtherZone;
            yield return new PileDoubt(kind, pile, null, null, null, [.. outlines.Where(one => one.Outline.Contains(pile.Position)).Select(one => one.Code)]);
        }
    }

    private static (IReadOnlyList<(string, SitePolygon)> Outlines, IReadOnlyList<(string, string)> Unusable) Outlines(IReadOnlyList<Zone> zones)
    {
        List<(string, SitePolygon)> outlines = [];
        List<(string, string)> unusable = [];
        foreach (Zone zone in zones.Where(zone => zone.Outline.Count > 0))
        {
            (SitePolygon? outline, LayoutProblem? problem) = SitePolygon.Of([zone.Corners()]);
            if (outline is not null) outlines.Add((zone.Code, outline));
            else unusable.Add((zone.Code, problem!.Found));
        }

        return (outlines, unusable);
    }
}
