using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Deviations;

namespace SiteProgress.Core.Ground;

/// <summary>A planned pile as the replacement of ground sees it.</summary>
/// <param name="Number">Pile number.</param>
/// <param name="Zone">Zone.</param>
/// <param name="At">Where it is, site grid: the judged as-built position; the design position where it is not built or not judged.</param>
/// <param name="Stands">True when it is built.</param>
/// <param name="PositionIsJudged">True when <paramref name="At"/> is as built.</param>
/// <param name="SectionSquareMetres">Mean section, sand in the pile over its length, square metres; null where it is not known or the pile not built.</param>
public sealed record GroundPile(string Number, string Zone, SiteCoordinate At, bool Stands, bool PositionIsJudged, double? SectionSquareMetres);

/// <summary>Design of the zone a pile stands in.</summary>
/// <param name="Zone">Zone.</param>
/// <param name="Outline">Corners of the zone, site grid; none where the settings hold no outline.</param>
/// <param name="Ratio">Design replacement ratio a_s.</param>
/// <param name="SpacingMetres">Largest spacing of its pattern, metres.</param>
public sealed record GroundDesign(string Zone, IReadOnlyList<SiteCoordinate> Outline, double Ratio, double SpacingMetres);

/// <summary>As-built replacement at one pile that stands.</summary>
/// <param name="Pile">The pile.</param>
/// <param name="Area">The ground that belongs to it.</param>
/// <param name="Ratio">Its section over its own area; null where one of them is not known.</param>
/// <param name="RatioAround">Sections over areas of it and of the built neighbours of its zone, together; null where <paramref name="Ratio"/> is.</param>
/// <param name="OpenNeighbours">Neighbours of its zone that do not stand: their design positions bound the area.</param>
/// <param name="IsWeak">True when <paramref name="RatioAround"/> is less than the share asked of the design's ratio.</param>
public sealed record PileReplacement(GroundPile Pile, TributaryArea Area, double? Ratio, double? RatioAround, int OpenNeighbours, bool IsWeak);

/// <summary>As-built replacement of a zone.</summary>
/// <param name="Design">Its design.</param>
/// <param name="Standing">Piles that stand.</param>
/// <param name="Known">Those of which section and area are known.</param>
/// <param name="Mean">Their sections together over their areas together; null where none is known.</param>
/// <param name="Least">The pile with the least ratio around it; null where none is known.</param>
/// <param name="Weak">Piles whose ratio around them is too small.</param>
public sealed record ZoneReplacement(GroundDesign Design, int Standing, int Known, double? Mean, PileReplacement? Least, int Weak);

/// <summary>Weak piles that border on each other.</summary>
/// <param name="Zone">Zone.</param>
/// <param name="Piles">The piles, the weakest first.</param>
public sealed record WeakSpot(string Zone, IReadOnlyList<PileReplacement> Piles)
{
    /// <summary>The weakest.</summary>
    public PileReplacement Weakest => Piles[0];
}

/// <summary>
/// As-built replacement ratio, pile by pile: the section of the sand over the ground that is nearer to the pile than to any other. A pile
/// that went aside takes ground from one neighbour and leaves it to another, so a pile alone says little; what is judged is a pile
/// together with its built neighbours, weighed by their areas. (a_s is section over area of the unit cell; its mean over as-built areas is
/// plane geometry. What is too weak is the engineer's to say.)
/// </summary>
/// <param name="Piles">Piles that stand, in the order given.</param>
/// <param name="Zones">By zone, in the order of the designs.</param>
/// <param name="Spots">Weak spots, the largest first.</param>
public sealed record ReplacementReview(IReadOnlyList<PileReplacement> Piles, IReadOnlyList<ZoneReplacement> Zones, IReadOnlyList<WeakSpot> Spots)
{
    /// <summary>Reviews all piles of a site.</summary>
    /// <param name="piles">All planned piles, built and not built, of all zones: those not yet built bound the ground of those that are.</param>
    /// <param name="designs">Zones; piles of other zones are passed over.</param>
    /// <param name="share">Share of the design's ratio below which a place is weak, above 0.</param>
    public static ReplacementReview Of(IReadOnlyList<GroundPile> piles, IReadOnlyList<GroundDesign> designs, double share)
    {
        ArgumentNullException.ThrowIfNull(piles);
        ArgumentNullException.ThrowIfNull(designs);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(share);
        Dictionary<string, GroundDesign> byZone = designs.Where(design => design.Outline.Count > 2).ToDictionary(design => design.Zone, StringComparer.OrdinalIgnoreCase);
        GroundPile[] known = [.. piles.Where(pile => byZone.ContainsKey(pile.Zone) && double.IsFinite(pile.At.XMetres + pile.At.YMetres))];
        TributaryArea[] areas = TributaryAreas.Of(
            Array.ConvertAll(known, pile => pile.At), place => byZone[known[place].Zone].Outline, designs.Select(design => 3 * design.SpacingMetres).DefaultIfEmpty(1).Max());
        double?[] ratios = [.. known.Select((pile, place) => pile is { Stands: true, SectionSquareMetres: { } section } && areas[place].AreaSquareMetres > 0 ? section / areas[place].AreaSquareMetres : (double?)null)];
        PileReplacement?[] reviewed = [.. known.Select((pile, place) => pile.Stands ? One(place) : null)];
        return new ReplacementReview(
            [.. reviewed.OfType<PileReplacement>()],
            [.. designs.Select(design => OfZone(design, [.. reviewed.OfType<PileReplacement>().Where(one => Same(one.Pile.Zone, design.Zone))]))],
            SpotsOf(reviewed));

        PileReplacement One(int place)
        {
            int[] around = [.. areas[place].Neighbours.Where(other => Same(known[other].Zone, known[place].Zone))];
            int[] counted = [.. around.Append(place).Where(other => ratios[other] is not null)];
            double? together = ratios[place] is null ? null : counted.Sum(other => known[other].SectionSquareMetres!.Value) / counted.Sum(other => areas[other].AreaSquareMetres);
            return new PileReplacement(
                known[place], areas[place], ratios[place], together, around.Count(other => !known[other].Stands),
                together is { } ratio && !AgainstLimit.IsAtLeast(ratio, share * byZone[known[place].Zone].Ratio));
        }
    }

    private static ZoneReplacement OfZone(GroundDesign design, PileReplacement[] standing)
    {
        PileReplacement[] known = [.. standing.Where(one => one.Ratio is not null)];
        return new ZoneReplacement(
            design, standing.Length, known.Length,
            known.Length == 0 ? null : known.Sum(one => one.Pile.SectionSquareMetres!.Value) / known.Sum(one => one.Area.AreaSquareMetres),
            known.MinBy(one => one.RatioAround),
            standing.Count(one => one.IsWeak));
    }

    private static WeakSpot[] SpotsOf(PileReplacement?[] reviewed)
    {
        List<WeakSpot> spots = [];
        HashSet<int> seen = [];
        for (int start = 0; start < reviewed.Length; start++)
        {
            if (reviewed[start] is not { IsWeak: true } || !seen.Add(start)) continue;
            List<PileReplacement> spot = [];
            Stack<int> open = new([start]);
            while (open.TryPop(out int place))
            {
                PileReplacement one = reviewed[place]!;
                spot.Add(one);
                foreach (int other in one.Area.Neighbours)
                {
                    if (reviewed[other] is { IsWeak: true } weak && Same(weak.Pile.Zone, one.Pile.Zone) && seen.Add(other)) open.Push(other);
                }
            }

            spots.Add(new WeakSpot(spot[0].Pile.Zone, [.. spot.OrderBy(one => one.RatioAround).ThenBy(one => one.Pile.Number, StringComparer.Ordinal)]));
        }

        return [.. spots.OrderByDescending(spot => spot.Piles.Count).ThenBy(spot => spot.Weakest.RatioAround)];
    }

    private static bool Same(string one, string other) => string.Equals(one, other, StringComparison.OrdinalIgnoreCase);
}
