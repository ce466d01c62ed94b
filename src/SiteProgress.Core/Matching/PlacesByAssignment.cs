using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Matching;

/// <summary>
/// Where records lie whose number and position do not agree, solved together: of all planned piles within reach (half a spacing)
/// that no agreeing record holds, each record takes at most one and each pile at most one record, so that the sum of the costs is
/// least. A record at a pile costs its distance as a share of that pile's reach (0 to 1) and 2 for the number that does not
/// agree; a record without a pile costs 3. A record whose number and position agree costs at most 1 at its own pile, so to move it
/// for another's sake never lowers the sum: those are settled before, and only the rest is solved here.
/// </summary>
internal static class PlacesByAssignment
{
    private const double NumberDisagrees = 2, NoPile = 3;

    /// <summary>The piles the records are put at; a record that found none is left out.</summary>
    /// <param name="records">Records that disagree, each with a place, any order.</param>
    /// <param name="design">The design, each record held against what was in force when it was built.</param>
    /// <param name="held">Numbers of piles that agreeing records hold.</param>
    public static Dictionary<long, PlannedPile> Solve(
        IEnumerable<LocatedInstallation> records, DesignIndex design, HashSet<string> held)
    {
        // By place, not by arrival: the same records in another order are the same problem, down to its ties.
        (long Sequence, SiteCoordinate At, PlannedPile[] Near)[] rows = records
            .Select(one => (one.Sequence, At: one.Position!.Value, Near: design.WithinReach(one.Position.Value, one.BuiltAt).Where(pile => !held.Contains(pile.Number)).ToArray()))
            .Where(one => one.Near.Length > 0)
            .OrderBy(one => one.At.XMetres).ThenBy(one => one.At.YMetres).ThenBy(one => one.Sequence)
            .ToArray();
        PlannedPile[] piles = rows.SelectMany(row => row.Near).DistinctBy(pile => pile.Number).OrderBy(pile => pile.Number, StringComparer.Ordinal).ToArray();
        Dictionary<string, int> columnOf = piles.Select((pile, column) => (pile.Number, column)).ToDictionary(one => one.Number, one => one.column);
        int[] columns = Assignment.Solve(piles.Length, rows.Select(row => Choices(row.At, row.Near, design, columnOf)).ToArray(), NoPile);
        return Enumerable.Range(0, rows.Length).Where(row => columns[row] >= 0).ToDictionary(row => rows[row].Sequence, row => piles[columns[row]]);
    }

    /// <summary>The piles near a record and what it costs there, in the order of the piles.</summary>
    private static Choice[] Choices(SiteCoordinate at, PlannedPile[] near, DesignIndex design, Dictionary<string, int> columnOf) => near
        .Where(pile => design.ReachMetres(pile) > 0)
        .Select(pile => new Choice(columnOf[pile.Number], NumberDisagrees + (DesignIndex.DistanceMetres(pile.Position, at) / design.ReachMetres(pile))))
        .OrderBy(choice => choice.Column)
        .ToArray();
}
