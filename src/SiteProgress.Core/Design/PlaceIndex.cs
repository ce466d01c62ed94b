using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Design;

/// <summary>Planned piles by place, for neighbours within one fixed distance: a grid of cells of that size.</summary>
public sealed class PlaceIndex
{
    private readonly double reach;
    private readonly Dictionary<(long, long), List<PlannedPile>> cells = [];

    /// <summary>Puts piles into cells.</summary>
    /// <param name="piles">The piles.</param>
    /// <param name="reachMetres">The distance, metres.</param>
    public PlaceIndex(IEnumerable<PlannedPile> piles, double reachMetres)
    {
        ArgumentNullException.ThrowIfNull(piles);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(reachMetres);
        reach = reachMetres;
        foreach (PlannedPile pile in piles)
        {
            (long, long) cell = Cell(pile.Position);
            if (!cells.TryGetValue(cell, out List<PlannedPile>? here)) cells[cell] = here = [];
            here.Add(pile);
        }
    }

    /// <summary>The piles no farther from a place than the distance.</summary>
    /// <param name="at">The place, site grid.</param>
    public IEnumerable<PlannedPile> Near(SiteCoordinate at)
    {
        (long column, long row) = Cell(at);
        for (long x = column - 1; x <= column + 1; x++)
        {
            for (long y = row - 1; y <= row + 1; y++)
            {
                if (!cells.TryGetValue((x, y), out List<PlannedPile>? here)) continue;
                foreach (PlannedPile pile in here)
                {
                    if (DesignPairs.Apart(pile.Position, at) <= reach) yield return pile;
                }
            }
        }
    }

    private (long, long) Cell(SiteCoordinate at) => ((long)Math.Floor(at.XMetres / reach), (long)Math.Floor(at.YMetres / reach));
}
