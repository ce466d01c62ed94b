using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Design;

/// <summary>
/// Which planned pile of one design is which of another. The place goes before the number: what lies where a pile lay is that pile,
/// under another number perhaps; of the rest, the same number is the same pile, moved. So a row whose numbers are shifted by one is a
/// row renumbered, and no pile of it is said to have moved.
/// </summary>
public static class DesignPairs
{
    /// <summary>Places no farther apart than this are one place, metres: what rounding and a change of frame can do. (Common practice, no source.)</summary>
    public static double SamePlaceMetres => 0.010;

    // The limit itself passes, though a difference of coordinates of millions of metres is not exact.
    private const double Slack = 1e-6;

    /// <summary>True where places this far apart are one place.</summary>
    public static bool IsSamePlace(double apartMetres) => apartMetres <= SamePlaceMetres + Slack;

    /// <summary>The piles of both designs, each with its other side; null where it has none.</summary>
    public static IReadOnlyList<(PlannedPile? Before, PlannedPile? After)> Of(IReadOnlyCollection<PlannedPile> before, IReadOnlyCollection<PlannedPile> after)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        List<(PlannedPile?, PlannedPile?)> pairs = new(Math.Max(before.Count, after.Count));
        Dictionary<string, PlannedPile> left = before.ToDictionary(pile => pile.Number, StringComparer.OrdinalIgnoreCase);
        List<PlannedPile> open = [];
        foreach (PlannedPile pile in after)
        {
            if (left.TryGetValue(pile.Number, out PlannedPile? same) && IsSamePlace(Apart(same.Position, pile.Position)))
            {
                pairs.Add((same, pile));
                left.Remove(same.Number);
            }
            else open.Add(pile);
        }

        open = AtTheSamePlace(open, left, pairs);
        foreach (PlannedPile pile in open) pairs.Add((left.Remove(pile.Number, out PlannedPile? same) ? same : null, pile));
        foreach (PlannedPile gone in before.Where(pile => left.ContainsKey(pile.Number))) pairs.Add((gone, null));
        return pairs;
    }

    private static List<PlannedPile> AtTheSamePlace(List<PlannedPile> open, Dictionary<string, PlannedPile> left, List<(PlannedPile?, PlannedPile?)> pairs)
    {
        if (open.Count == 0 || left.Count == 0) return open;
        PlaceIndex places = new(left.Values, SamePlaceMetres + Slack);
        List<PlannedPile> still = [];
        foreach (PlannedPile pile in open)
        {
            PlannedPile? there = places.Near(pile.Position)
                .Where(one => left.ContainsKey(one.Number))
                .OrderBy(one => Apart(one.Position, pile.Position)).ThenBy(one => one.Number, StringComparer.Ordinal)
                .FirstOrDefault();
            if (there is null)
            {
                still.Add(pile);
                continue;
            }

            left.Remove(there.Number);
            pairs.Add((there, pile));
        }

        return still;
    }

    internal static double Apart(SiteCoordinate one, SiteCoordinate other)
        => Math.Sqrt(((one.XMetres - other.XMetres) * (one.XMetres - other.XMetres)) + ((one.YMetres - other.YMetres) * (one.YMetres - other.YMetres)));
}
