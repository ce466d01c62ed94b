using System.Diagnostics;
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

/// <summary>
/// Fewest sets that cover every element. It is cut into parts that have nothing to do with each other; each gets a bound by linear
/// programming and a cover rounded from it, and where these differ CP-SAT of OR-Tools goes on with the sets that could still better it.
/// </summary>
public static class CoverSolver
{
    /// <summary>Solves it.</summary>
    /// <param name="elements">Number of elements; each must lie in some set.</param>
    /// <param name="sets">The sets, as elements.</param>
    /// <param name="hint">Sets to begin with; what they leave out is covered from the others.</param>
    /// <param name="forced">Sets that must be chosen.</param>
    /// <param name="limit">When to stop.</param>
    public static Cover Solve(int elements, IReadOnlyList<IReadOnlyList<int>> sets, IReadOnlyCollection<int> hint, IReadOnlyCollection<int> forced, SolverLimit limit)
    {
        ArgumentNullException.ThrowIfNull(sets);
        ArgumentNullException.ThrowIfNull(hint);
        ArgumentNullException.ThrowIfNull(forced);
        ArgumentNullException.ThrowIfNull(limit);
        long begin = Stopwatch.GetTimestamp();
        bool[] covered = new bool[elements];
        foreach (int set in forced)
        {
            foreach (int element in sets[set]) covered[element] = true;
        }

        HashSet<int> start = [.. hint];
        List<int> chosen = [.. forced];
        int bound = forced.Count;
        List<PartCover> open = [];
        foreach (CoverPart part in CoverPart.Of(elements, sets, covered))
        {
            PartCover begun = PartCover.Of(part, start, limit);
            if (begun.Bound < begun.Chosen.Count) open.Add(begun);
            else Keep(begun);
        }

        // The small first: what they leave of the time goes to the large.
        int left = open.Sum(one => one.Part.Elements);
        foreach (PartCover one in open.OrderBy(one => one.Part.Elements))
        {
            double seconds = (limit.Seconds - Stopwatch.GetElapsedTime(begin).TotalSeconds) * one.Part.Elements / left;
            left -= one.Part.Elements;
            Keep(seconds > 0.02 ? one.Bettered(limit with { Seconds = seconds }) : one);
        }

        return new Cover(chosen, bound);

        void Keep(PartCover one)
        {
            chosen.AddRange(one.Chosen.Select(set => one.Part.Places[set]));
            bound += one.Bound;
        }
    }

    /// <summary>Fewest sets if parts of sets could be chosen, rounded up: quick, and no choice of whole sets is below it.</summary>
    internal static int LinearBound(int elements, IReadOnlyList<IReadOnlyList<int>> sets) => LinearCover.Of(elements, sets, null).Bound;

    /// <summary>A part with its best cover and bound so far.</summary>
    private sealed record PartCover(CoverPart Part, IReadOnlyList<int> Chosen, int Bound, LinearCover Linear)
    {
        public static PartCover Of(CoverPart part, HashSet<int> start, SolverLimit limit)
        {
            LinearCover linear = LinearCover.Of(part.Elements, part.Sets, limit.Steps is null ? limit.Seconds * 0.7 : null);
            List<int> hinted = part.Greedy(Enumerable.Range(0, part.Sets.Count).Where(set => start.Contains(part.Places[set])), linear.Parts);
            List<int> rounded = part.Greedy(
                Enumerable.Range(0, part.Sets.Count).Where(set => linear.Parts[set] > 0.5).OrderByDescending(set => linear.Parts[set]), linear.Parts);
            return new PartCover(part, rounded.Count < hinted.Count ? rounded : hinted, Math.Max(1, linear.Bound), linear);
        }

        public PartCover Bettered(SolverLimit limit)
        {
            HashSet<int> start = [.. Chosen];
            // A cover with any other set has as many sets as the one at hand, or more.
            int[] worth = [.. Enumerable.Range(0, Part.Sets.Count).Where(set => start.Contains(set) || Linear.Value + Linear.Losses[set] <= Chosen.Count - 1 + 1e-6)];
            CpModel model = new();
            List<ILiteral>[] holding = [.. Enumerable.Range(0, Part.Elements).Select(_ => new List<ILiteral>())];
            BoolVar[] chosen = new BoolVar[worth.Length];
            for (int place = 0; place < worth.Length; place++)
            {
                chosen[place] = model.NewBoolVar("");
                model.AddHint(chosen[place], start.Contains(worth[place]) ? 1 : 0);
                foreach (int element in Part.Sets[worth[place]]) holding[element].Add(chosen[place]);
            }

            foreach (List<ILiteral> any in holding) model.AddAtLeastOne(any);
            model.Minimize(LinearExpr.Sum(chosen));
            CpSolver solver = new() { StringParameters = Parameters(limit) };
            if (solver.Solve(model) is not (CpSolverStatus.Optimal or CpSolverStatus.Feasible)) return this;
            int[] found = [.. Enumerable.Range(0, worth.Length).Where(place => solver.BooleanValue(chosen[place])).Select(place => worth[place])];
            // A bound of 11.2 is one of 12: sets are whole.
            int bound = Math.Max(Bound, Math.Min(Chosen.Count, (int)Math.Ceiling(solver.BestObjectiveBound - 1e-6)));
            return this with { Chosen = found.Length < Chosen.Count ? found : Chosen, Bound = bound };
        }

        private static string Parameters(SolverLimit limit) => limit.Steps is { } steps
            ? FormattableString.Invariant($"max_deterministic_time:{steps} num_workers:1 random_seed:7 linearization_level:2")
            : FormattableString.Invariant($"max_time_in_seconds:{limit.Seconds} num_workers:4 random_seed:7 linearization_level:2");
    }
}
