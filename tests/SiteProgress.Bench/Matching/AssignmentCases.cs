using SiteProgress.Core.Matching;

namespace SiteProgress.Bench.Matching;

/// <summary>
/// Made assignment problems with whole costs, so that two solvers can be held to the very same sum: one row a record, one column a
/// pile, a choice where the two are within reach.
/// </summary>
internal static class AssignmentCases
{
    /// <summary>Cost of a row without a column; a choice costs from 2,000,000 to this.</summary>
    public const int CostOfNone = 3_000_000;

    private const int LeastCost = 2_000_000;

    /// <summary>A small one of any shape: rows without choices, rows more than columns, ties.</summary>
    public static (int Columns, Choice[][] Rows) Small(Random chance)
    {
        int rows = chance.Next(1, 30), columns = chance.Next(1, 30);
        double share = chance.NextDouble();
        int grain = chance.Next(3) == 0 ? 250_000 : 1; // coarse costs tie often
        return (columns, [.. Enumerable.Range(0, rows).Select(_ => Enumerable.Range(0, columns).Where(_ => chance.NextDouble() < share)
            .Select(column => new Choice(column, LeastCost + (chance.Next(0, 1_000_001) / grain * grain))).ToArray())]);
    }

    /// <summary>One long chain: each row between two columns of a line, in the order of no place; a hundredth of the columns is missing.</summary>
    public static (int Columns, Choice[][] Rows) Chain(int rows, Random chance)
    {
        Choice[][] made = new Choice[rows][];
        for (int row = 0; row < rows; row++)
        {
            int along = chance.Next(1_000_001);
            made[row] = [.. new[] { new Choice(row, LeastCost + along), new Choice(row + 1, LeastCost + 1_000_000 - along) }.Where(choice => choice.Column % 100 != 50)];
        }

        chance.Shuffle(made);
        return (rows + 1, made);
    }

    /// <summary>A chain whose rows all lie midway between two columns: every choice costs the same, all is one tie.</summary>
    public static (int Columns, Choice[][] Rows) TiedChain(int rows, Random chance)
    {
        Choice[][] made = [.. Enumerable.Range(0, rows).Select(row => new[] { new Choice(row, 2_500_000), new Choice(row + 1, 2_500_000) })];
        chance.Shuffle(made);
        return (rows, [.. made.Select(row => row.Where(choice => choice.Column < rows).ToArray())]);
    }

    /// <summary>A field where every row reaches the four columns about it: one group in two directions.</summary>
    public static (int Columns, Choice[][] Rows) Field(int rows, Random chance)
    {
        int side = (int)Math.Ceiling(Math.Sqrt(rows)) + 1;
        Choice[][] made = new Choice[rows][];
        for (int row = 0; row < rows; row++)
        {
            int corner = (row / (side - 1) * side) + (row % (side - 1));
            double x = chance.NextDouble(), y = chance.NextDouble();
            made[row] = [.. new[] { (0, 0), (1, 0), (0, 1), (1, 1) }.Select(at => new Choice(
                corner + at.Item1 + (at.Item2 * side), LeastCost + Math.Round(700_000 * Math.Sqrt(((x - at.Item1) * (x - at.Item1)) + ((y - at.Item2) * (y - at.Item2))))))];
        }

        chance.Shuffle(made);
        return (side * side, made);
    }

    /// <summary>Groups of one pile with a few records at it: what a site's contradictions look like.</summary>
    public static (int Columns, Choice[][] Rows) Stars(int rows, Random chance)
    {
        Choice[][] made = [.. Enumerable.Range(0, rows).Select(row => new[] { new Choice(row / 2, LeastCost + chance.Next(0, 1_000_001)) })];
        chance.Shuffle(made);
        return ((rows / 2) + 1, made);
    }

    /// <summary>The sum of an answer; it must take each column once and only choices there are.</summary>
    public static long Sum(int[] columnOf, Choice[][] rows)
    {
        HashSet<int> taken = [];
        long sum = 0;
        for (int row = 0; row < rows.Length; row++)
        {
            if (columnOf[row] < 0) sum += CostOfNone;
            else
            {
                if (!taken.Add(columnOf[row])) throw new InvalidOperationException("A column was taken twice.");
                sum += (long)rows[row].Single(choice => choice.Column == columnOf[row]).Cost;
            }
        }

        return sum;
    }
}
