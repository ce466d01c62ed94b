using Google.OrTools.Graph;
using SiteProgress.Core.Matching;

namespace SiteProgress.Bench.Matching;

/// <summary>
/// The independent solver: OR-Tools' cost-scaling assignment and its minimum-cost flow. Both give the least sum of the same problem.
/// </summary>
internal static class OrToolsAssignment
{
    /// <summary>
    /// Cost-scaling assignment. It wants every node in a pair, so the problem is mirrored: a row may go to a node of its own that
    /// stands for none, a column to a node of its own that stands for free, and these two go together wherever row and column may.
    /// </summary>
    public static long Sum(int columns, Choice[][] rows)
    {
        using LinearSumAssignment solver = new();
        for (int row = 0; row < rows.Length; row++)
        {
            solver.AddArcWithCost(row, columns + row, AssignmentCases.CostOfNone);
            foreach (Choice choice in rows[row])
            {
                solver.AddArcWithCost(row, choice.Column, (long)choice.Cost);
                solver.AddArcWithCost(rows.Length + choice.Column, columns + row, 0);
            }
        }

        for (int column = 0; column < columns; column++) solver.AddArcWithCost(rows.Length + column, column, 0);
        return solver.Solve() == LinearSumAssignment.Status.OPTIMAL ? solver.OptimalCost() : throw new InvalidOperationException("OR-Tools found no optimum.");
    }

    /// <summary>Minimum-cost flow: one unit from each row, through a column or past all of them.</summary>
    public static long SumByFlow(int columns, Choice[][] rows)
    {
        using MinCostFlow solver = new();
        int sink = rows.Length + columns;
        for (int row = 0; row < rows.Length; row++)
        {
            solver.SetNodeSupply(row, 1);
            solver.AddArcWithCapacityAndUnitCost(row, sink, 1, AssignmentCases.CostOfNone);
            foreach (Choice choice in rows[row]) solver.AddArcWithCapacityAndUnitCost(row, rows.Length + choice.Column, 1, (long)choice.Cost);
        }

        for (int column = 0; column < columns; column++) solver.AddArcWithCapacityAndUnitCost(rows.Length + column, sink, 1, 0);
        solver.SetNodeSupply(sink, -rows.Length);
        return solver.Solve() == MinCostFlowBase.Status.OPTIMAL ? solver.OptimalCost() : throw new InvalidOperationException("OR-Tools found no optimum.");
    }
}
