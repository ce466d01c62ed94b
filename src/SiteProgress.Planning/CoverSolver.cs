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
        if (status is not (CpSolverStatus.Optimal or CpSolverStatus.Feasible)) return new Cover([.. start.Union(forced)], forced.Count);
        int[] found = [.. Enumerable.Range(0, sets.Count).Where(set => solver.BooleanValue(chosen[set]))];
        // A bound of 11.2 is one of 12: sets are whole. The margin is the solver's own tolerance.
        return new Cover(found, (int)Math.Ceiling(solver.BestObjectiveBound - 1e-6));
    }

    private static string Parameters(SolverLimit limit) => limit.Steps is { } steps
        ? FormattableString.Invariant($"max_deterministic_time:{steps} num_workers:1 random_seed:7")
        : FormattableString.Invariant($"max_time_in_seconds:{limit.Seconds} num_workers:4 random_seed:7");
}
