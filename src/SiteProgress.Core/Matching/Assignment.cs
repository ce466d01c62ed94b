namespace SiteProgress.Core.Matching;

/// <summary>
/// The assignment problem: each row to one column or to none, each column to at most one row, at least total cost. Solved by
/// shortest augmenting paths with potentials over a dense table (the Hungarian method; Kuhn 1955, Munkres 1957), in a time that
/// grows with rows squared times columns. Exact; the answer rests on the costs alone, not on how the search went, save for ties.
/// </summary>
internal static class Assignment
{
    /// <summary>Solves one problem.</summary>
    /// <param name="costs">Cost of each row at each column; infinity where they may not meet. Finite costs must be numbers.</param>
    /// <param name="costOfNone">Cost of a row that is left without a column.</param>
    /// <returns>For each row its column, or -1.</returns>
    public static int[] Solve(double[,] costs, double costOfNone)
    {
        ArgumentNullException.ThrowIfNull(costs);
        int rows = costs.GetLength(0), columns = costs.GetLength(1);
        // A column of its own for each row stands for "none"; so there is always an answer, and never fewer columns than rows.
        int all = columns + rows;
        double Cost(int row, int column)
            => column < columns ? Math.Min(costs[row, column], Forbidden) : column - columns == row ? costOfNone : Forbidden;

        double[] rowPotential = new double[rows + 1], columnPotential = new double[all + 1];
        int[] rowOf = new int[all + 1];
        for (int row = 1; row <= rows; row++) Augment(row, all, Cost, rowPotential, columnPotential, rowOf);

        int[] columnOf = new int[rows];
        Array.Fill(columnOf, -1);
        for (int column = 1; column <= columns; column++)
        {
            if (rowOf[column] is > 0 and var row) columnOf[row - 1] = column - 1;
        }

        return columnOf;
    }

    // Larger than any sum of real costs of a component, small enough to keep the costs' own digits.
    private const double Forbidden = 1e7;

    /// <summary>Adds one row along the shortest path to a free column. Index 0 stands outside, as the path's beginning.</summary>
    private static void Augment(int row, int all, Func<int, int, double> cost, double[] rowPotential, double[] columnPotential, int[] rowOf)
    {
        double[] least = new double[all + 1];
        int[] before = new int[all + 1];
        bool[] reached = new bool[all + 1];
        Array.Fill(least, double.PositiveInfinity);
        rowOf[0] = row;
        int column = 0;
        do
        {
            reached[column] = true;
            int from = rowOf[column], next = 0;
            double step = double.PositiveInfinity;
            for (int other = 1; other <= all; other++)
            {
                if (reached[other]) continue;
                double reduced = cost(from - 1, other - 1) - rowPotential[from] - columnPotential[other];
                if (reduced < least[other]) (least[other], before[other]) = (reduced, column);
                if (least[other] < step) (step, next) = (least[other], other);
            }

            for (int other = 0; other <= all; other++)
            {
                if (!reached[other]) least[other] -= step;
                else
                {
                    rowPotential[rowOf[other]] += step;
                    columnPotential[other] -= step;
                }
            }

            column = next;
        }
        while (rowOf[column] != 0);

        for (; column != 0; column = before[column]) rowOf[column] = rowOf[before[column]];
    }
}
