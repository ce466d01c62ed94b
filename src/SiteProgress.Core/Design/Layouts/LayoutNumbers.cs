using System.Globalization;

namespace SiteProgress.Core.Design.Layouts;

/// <summary>Puts the places of a layout in order and numbers them.</summary>
internal static class LayoutNumbers
{
    /// <summary>The piles in the order of their numbers.</summary>
    /// <param name="places">Places row by row, along each row.</param>
    /// <param name="rule">The rule.</param>
    /// <param name="pattern">Its pattern, read.</param>
    public static IReadOnlyList<LaidPile> Put(IReadOnlyList<GridPlace> places, NumberingRule rule, NumberPattern pattern)
    {
        List<LaidPile> piles = new(places.Count);
        IGrouping<int, GridPlace>[] rows = [.. places.GroupBy(place => place.Row)];
        if (rule.RowsBackwards) Array.Reverse(rows);
        (int firstColumn, int lastColumn) = (places.Min(place => place.Column), places.Max(place => place.Column));
        foreach (IGrouping<int, GridPlace> row in rows)
        {
            // Rows are counted on the grid, an empty one between too, so that the number of a row says where it lies.
            int index = Math.Abs(row.Key - rows[0].Key);
            bool backwards = rule.PilesBackwards != (rule.Serpentine && (index & 1) == 1);
            int inRow = 0;
            foreach (GridPlace place in backwards ? row.Reverse() : row)
            {
                long column = !rule.ByColumn ? inRow : rule.PilesBackwards ? lastColumn - place.Column : place.Column - firstColumn;
                string number = pattern.Number(
                    rule.FirstPlace + ((long)piles.Count * rule.PlaceStep), rule.FirstRow + ((long)index * rule.RowStep), rule.FirstPlace + (column * rule.PlaceStep));
                piles.Add(new LaidPile(number, index + 1, place.Position));
                inRow++;
            }
        }

        return piles;
    }

    /// <summary>The first number that stands twice; null where each stands once.</summary>
    public static LayoutProblem? Repeated(IReadOnlyList<LaidPile> piles)
    {
        HashSet<string> seen = new(piles.Count, StringComparer.OrdinalIgnoreCase);
        int again = 0;
        string? first = null;
        foreach (LaidPile pile in piles)
        {
            if (seen.Add(pile.Number)) continue;
            first ??= pile.Number;
            again++;
        }

        return first is null ? null : new LayoutProblem(
            "Numbers", again == 1 ? $"{first} stands twice" : string.Create(CultureInfo.InvariantCulture, $"{first} and others stand more than once, {again} times in all"),
            "a pattern that gives each pile a number of its own: with {count}, or with {place} beside {row} or {letter}");
    }
}
