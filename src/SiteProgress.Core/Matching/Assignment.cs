namespace SiteProgress.Core.Matching;

/// <summary>One column a row may take, and what that costs.</summary>
/// <param name="Column">Index of the column, from 0.</param>
/// <param name="Cost">Its cost, a number; below the cost of none, or it is never taken.</param>
internal readonly record struct Choice(int Column, double Cost);

/// <summary>
/// The assignment problem: each row to one of its columns or to none, each column to at most one row, at least total cost. Solved
/// by shortest augmenting paths with potentials (Kuhn 1955, Munkres 1957; the search by Dijkstra's method after Edmonds and Karp
/// 1972) over the choices there are, never over a table of all rows by all columns. Exact; the answer rests on the costs alone,
/// not on how the search went, save for ties.
/// </summary>
/// <remarks>
/// A row's potential is at most the cost of none, a column's at most zero, their sum at most the cost of the choice between them;
/// with equality for what is taken, for a row left without and for a column left free. That proves the sum least (duality). A
/// search ends where leaving a row without costs no more than going on, so it stays near its beginning however far the records
/// hang together; rows enter as neighbours of those before them, so that free columns lie ahead and not behind a long full run.
/// </remarks>
internal sealed class Assignment
{
    private const int None = -1;
    private readonly IReadOnlyList<Choice[]> _rows;
    private readonly double _costOfNone;
    private readonly double[] _rowPotential, _columnPotential, _distance;
    private readonly int[] _columnOf, _rowOf, _before, _search;
    private readonly PriorityQueue<int, double> _open = new();
    private readonly List<int> _reached = [];

    private Assignment(int columns, IReadOnlyList<Choice[]> rows, double costOfNone)
    {
        (_rows, _costOfNone) = (rows, costOfNone);
        (_rowPotential, _columnPotential, _distance) = (new double[rows.Count], new double[columns], new double[rows.Count]);
        (_columnOf, _rowOf, _before, _search) = (new int[rows.Count], new int[columns], new int[rows.Count], new int[rows.Count]);
        Array.Fill(_columnOf, None);
        Array.Fill(_rowOf, None);
    }

    /// <summary>Solves one problem.</summary>
    /// <param name="columns">How many columns there are.</param>
    /// <param name="rows">The choices of each row; a row may have none.</param>
    /// <param name="costOfNone">Cost of a row that is left without a column.</param>
    /// <returns>For each row its column, or -1.</returns>
    public static int[] Solve(int columns, IReadOnlyList<Choice[]> rows, double costOfNone)
    {
        ArgumentNullException.ThrowIfNull(rows);
        Assignment problem = new(columns, rows, costOfNone);
        int number = 0;
        foreach (int row in ByNeighbourhood(columns, rows)) problem.Enter(row, ++number);
        return problem._columnOf;
    }

    /// <summary>All rows, each group that hangs together in turn, breadth first from its first row.</summary>
    private static IEnumerable<int> ByNeighbourhood(int columns, IReadOnlyList<Choice[]> rows)
    {
        List<int>[] rowsOf = new List<int>[columns];
        for (int row = 0; row < rows.Count; row++)
        {
            foreach (Choice choice in rows[row]) (rowsOf[choice.Column] ??= []).Add(row);
        }

        bool[] met = new bool[rows.Count], passed = new bool[columns];
        Queue<int> next = new();
        for (int first = 0; first < rows.Count; first++)
        {
            if (!met[first]) next.Enqueue(first);
            met[first] = true;
            while (next.TryDequeue(out int row))
            {
                yield return row;
                foreach (Choice choice in rows[row])
                {
                    if (passed[choice.Column]) continue;
                    passed[choice.Column] = true;
                    foreach (int other in rowsOf[choice.Column].Where(other => !met[other]))
                    {
                        met[other] = true;
                        next.Enqueue(other);
                    }
                }
            }
        }
    }

    /// <summary>Takes one more row in, along the path by which the sum grows least.</summary>
    private void Enter(int first, int number)
    {
        _rowPotential[first] = _costOfNone;
        foreach (Choice choice in _rows[first]) _rowPotential[first] = Math.Min(_rowPotential[first], choice.Cost - _columnPotential[choice.Column]);
        (int last, int free, double length) = ShortestPath(first, number);
        foreach (int row in _reached)
        {
            if (_distance[row] >= length) continue;
            _rowPotential[row] += length - _distance[row];
            if (_columnOf[row] != None) _columnPotential[_columnOf[row]] -= length - _distance[row];
        }

        // Each row of the path takes the column of the one after it; the last a free one, or none.
        for (int row = last, column = free; row != None; row = _before[row])
        {
            int given = _columnOf[row];
            _columnOf[row] = column;
            if (column != None) _rowOf[column] = row;
            column = given;
        }
    }

    /// <summary>The shortest path from a row to one that takes a free column (its index) or goes without (-1).</summary>
    private (int Last, int Free, double Length) ShortestPath(int first, int number)
    {
        (int Last, int Free, double Length) best = (None, None, double.PositiveInfinity);
        _open.Clear();
        _reached.Clear();
        Reach(first, None, 0, number);
        while (_open.TryDequeue(out int row, out double distance) && distance < best.Length)
        {
            if (distance > _distance[row]) continue;
            double without = distance + _costOfNone - _rowPotential[row];
            if (without < best.Length) best = (row, None, without);
            foreach (Choice choice in _rows[row])
            {
                double length = distance + Math.Max(0, choice.Cost - _rowPotential[row] - _columnPotential[choice.Column]);
                if (length >= best.Length) continue;
                int holder = _rowOf[choice.Column];
                if (holder == None) best = (row, choice.Column, length);
                else if (_search[holder] != number || length < _distance[holder]) Reach(holder, row, length, number);
            }
        }

        return best;
    }

    private void Reach(int row, int before, double distance, int number)
    {
        if (_search[row] != number) _reached.Add(row);
        (_search[row], _before[row], _distance[row]) = (number, before, distance);
        _open.Enqueue(row, distance);
    }
}
