using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Matching;

/// <summary>
/// Where records lie whose number and position do not agree, solved together: of all planned piles within reach (half a spacing)
/// that no agreeing record holds, each record takes at most one and each pile at most one record, so that the sum of the costs is
/// least. A record at a pile costs its distance as a share of that pile's reach (0 to 1) and 2 for the number that does not
/// agree; a record without a pile costs 3. A record whose number and position agree costs at most 1 at its own pile, so to move it
/// for another's sake never lowers the sum: those are settled before, and only the rest is solved here, by groups that share piles.
/// </summary>
internal static class PlacesByAssignment
{
    private const double NumberDisagrees = 2, NoPile = 3;

    /// <summary>The piles the records are put at; a record that found none is left out.</summary>
    /// <param name="records">Records that disagree, with their places, any order.</param>
    /// <param name="design">Design in force.</param>
    /// <param name="held">Numbers of piles that agreeing records hold.</param>
    public static Dictionary<long, PlannedPile> Solve(
        IEnumerable<(long Sequence, SiteCoordinate At)> records, DesignIndex design, HashSet<string> held)
    {
        // By place, not by arrival: the same records in another order are the same problem, down to its ties.
        (long Sequence, SiteCoordinate At, PlannedPile[] Near)[] rows = records
            .Select(one => (one.Sequence, one.At, Near: design.WithinReach(one.At).Where(pile => !held.Contains(pile.Number)).ToArray()))
            .Where(one => one.Near.Length > 0)
            .OrderBy(one => one.At.XMetres).ThenBy(one => one.At.YMetres).ThenBy(one => one.Sequence)
            .ToArray();
        Dictionary<long, PlannedPile> places = [];
        foreach (int[] group in Groups(rows.Select(row => row.Near).ToArray()))
        {
            PlannedPile[] piles = group.SelectMany(index => rows[index].Near).DistinctBy(pile => pile.Number).OrderBy(pile => pile.Number, StringComparer.Ordinal).ToArray();
            double[,] costs = new double[group.Length, piles.Length];
            for (int row = 0; row < group.Length; row++)
            {
                for (int column = 0; column < piles.Length; column++) costs[row, column] = Cost(rows[group[row]].At, piles[column], design);
            }

            int[] columns = Assignment.Solve(costs, NoPile);
            for (int row = 0; row < columns.Length; row++)
            {
                if (columns[row] >= 0) places[rows[group[row]].Sequence] = piles[columns[row]];
            }
        }

        return places;
    }

    private static double Cost(SiteCoordinate at, PlannedPile pile, DesignIndex design)
    {
        double distance = DesignIndex.DistanceMetres(pile.Position, at);
        double reach = design.ReachMetres(pile);
        return distance > reach || reach == 0 ? double.PositiveInfinity : NumberDisagrees + (distance / reach);
    }

    /// <summary>Rows that share piles, directly or through others, in one group.</summary>
    private static IEnumerable<int[]> Groups(PlannedPile[][] near)
    {
        int[] parent = Enumerable.Range(0, near.Length).ToArray();
        int Root(int row)
        {
            while (parent[row] != row) row = parent[row] = parent[parent[row]];
            return row;
        }

        Dictionary<string, int> firstAt = [];
        for (int row = 0; row < near.Length; row++)
        {
            foreach (PlannedPile pile in near[row])
            {
                if (!firstAt.TryAdd(pile.Number, row)) parent[Root(row)] = Root(firstAt[pile.Number]);
            }
        }

        return Enumerable.Range(0, near.Length).GroupBy(Root).Select(group => group.ToArray());
    }
}
