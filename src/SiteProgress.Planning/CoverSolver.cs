using Google.OrTools.Sat;

namespace SiteProgress.Planning;

/// <summary>When the solver stops looking for something better.</summary>
/// <param name="Seconds">Wall-clock seconds, in use.</param>
/// <param name="Steps">The solver's own count of work, in tests: the same on every machine; null where time decides.</param>
public sealed record SolverLimit(double Seconds, double? Steps = null);

/// <summary>Sets chosen to cover all, and how few could do at least.</summary>
/// <param name="Chosen">Places of the chosen sets.</param>
/// <param name="Bound">No choice has fewer sets.</param>
public sealed record Cover(IReadOnlyList<int> Chosen, int Bound);

/// <summary>Fewest sets that cover every element: the set cover problem, by CP-SAT of OR-Tools.</summary>
public static class CoverSolver
{
    /// <summary>Solves it.</summary>
    /// <param name="elements">Number of elements; each must lie in some set.</param>
    /// <param name="sets">The sets, as elements.</param>
    /// <param name="hint">A cover to begin with.</param>
    /// <param name="forced">Sets that must be chosen.</param>
    /// <param name="limit">When to stop.</param>
    public static Cover Solve(int elements, IReadOnlyList<IReadOnlyList<int>> sets, IReadOnlyCollection<int> hint, IReadOnlyCollection<int> forced, SolverLimit limit)
    {
        ArgumentNullException.ThrowIfNull(sets);
        ArgumentNullException.ThrowIfNull(limit);
        if (elements == 0) return new Cover([.. forced], forced.Count);
        CpModel model = new();
        BoolVar[] chosen = new BoolVar[sets.Count];
        HashSet<int> start = [.. hint];
        List<BoolVar>[] holding = [.. Enumerable.Range(0, elements).Select(_ => new List<BoolVar>())];
        for (int set = 0; set < sets.Count; set++)
        {
            chosen[set] = model.NewBoolVar("");
            model.AddHint(chosen[set], start.Contains(set) ? 1 : 0);
            foreach (int element in sets[set]) holding[element].Add(chosen[set]);
        }

        foreach (List<BoolVar> any in holding) model.AddBoolOr(any);
        foreach (int set in forced) model.Add(chosen[set] == 1);
        model.Minimize(LinearExpr.Sum(chosen));
        CpSolver solver = new() { StringParameters = Parameters(limit) };
        CpSolverStatus status = solver.Solve(model);
        int linear = status == CpSolverStatus.Optimal ? 0 : LinearBound(elements, sets);
        if (status is not (CpSolverStatus.Optimal or CpSolverStatus.Feasible)) return new Cover([.. start.Union(forced)], Math.Max(linear, forced.Count));
        int[] found = [.. Enumerable.Range(0, sets.Count).Where(set => solver.BooleanValue(chosen[set]))];
        // A bound of 11.2 is one of 12: sets are whole. The margin is the solver's own tolerance.
        return new Cover(found, Math.Max(linear, (int)Math.Ceiling(solver.BestObjectiveBound - 1e-6)));
    }

    /// <summary>Fewest sets if parts of sets could be chosen, rounded up: quick, and no choice of whole sets is below it. By GLOP of OR-Tools.</summary>
    internal static int LinearBound(int elements, IReadOnlyList<IReadOnlyList<int>> sets)
    {
        using Google.OrTools.LinearSolver.Solver solver = Google.OrTools.LinearSolver.Solver.CreateSolver("GLOP");
        // Shares of elements that no set is overpaid by: the dual question, whose every answer is a bound.
        Google.OrTools.LinearSolver.Variable[] shares = solver.MakeNumVarArray(elements, 0, 1);
        foreach (IReadOnlyList<int> set in sets)
        {
            Google.OrTools.LinearSolver.Constraint paid = solver.MakeConstraint(double.NegativeInfinity, 1);
            foreach (int element in set) paid.SetCoefficient(shares[element], 1);
        }

        Google.OrTools.LinearSolver.Objective sum = solver.Objective();
        foreach (Google.OrTools.LinearSolver.Variable share in shares) sum.SetCoefficient(share, 1);
        sum.SetMaximization();
        return solver.Solve() == Google.OrTools.LinearSolver.Solver.ResultStatus.OPTIMAL ? (int)Math.Ceiling(sum.Value() - 1e-6) : 0;
    }

    private static string Parameters(SolverLimit limit) => limit.Steps is { } steps
        ? FormattableString.Invariant($"max_deterministic_time:{steps} num_workers:1 random_seed:7")
        : FormattableString.Invariant($"max_time_in_seconds:{limit.Seconds} num_workers:4 random_seed:7");
}
