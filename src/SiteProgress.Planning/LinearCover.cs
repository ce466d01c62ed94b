using Google.OrTools.LinearSolver;

namespace SiteProgress.Planning;

/// <summary>
/// The cover if parts of sets could be chosen: a bound that no choice of whole sets is below, and what each set is worth to it.
/// </summary>
/// <remarks>
/// Solved by GLOP of OR-Tools as the dual question: every element gets a share so that no set holds more than 1 of shares. Any such
/// shares add up to a bound, so an answer cut short by the clock is one too. Linear duality: textbook, common practice.
/// </remarks>
internal sealed class LinearCover
{
    private LinearCover(double value, double[] parts, double[] losses) => (Value, Parts, Losses) = (value, parts, losses);

    /// <summary>Sum of the shares.</summary>
    public double Value { get; }

    /// <summary>No cover has fewer sets. The margin is the solver's own tolerance.</summary>
    public int Bound => (int)Math.Ceiling(Value - 1e-6);

    /// <summary>Part of each set that is chosen, 0 to 1; all 0 where the clock cut it short.</summary>
    public double[] Parts { get; }

    /// <summary>By how much more than <see cref="Value"/> any cover has that holds the set.</summary>
    public double[] Losses { get; }

    /// <summary>Solves it.</summary>
    /// <param name="elements">Number of elements.</param>
    /// <param name="sets">The sets, as elements.</param>
    /// <param name="seconds">Wall-clock seconds it may take; null for no end.</param>
    public static LinearCover Of(int elements, IReadOnlyList<IReadOnlyList<int>> sets, double? seconds)
    {
        using Solver solver = Solver.CreateSolver("GLOP");
        if (seconds is { } most) solver.SetTimeLimit((long)Math.Max(50, most * 1000));
        Variable[] shares = solver.MakeNumVarArray(elements, 0, 1);
        Constraint[] paid = new Constraint[sets.Count];
        for (int set = 0; set < paid.Length; set++)
        {
            paid[set] = solver.MakeConstraint(double.NegativeInfinity, 1);
            foreach (int element in sets[set]) paid[set].SetCoefficient(shares[element], 1);
        }

        Objective sum = solver.Objective();
        foreach (Variable share in shares) sum.SetCoefficient(share, 1);
        sum.SetMaximization();
        Solver.ResultStatus status = solver.Solve();
        bool solved = status == Solver.ResultStatus.OPTIMAL;
        double[] found = solved || status == Solver.ResultStatus.FEASIBLE ? Array.ConvertAll(shares, share => Math.Max(0, share.SolutionValue())) : new double[elements];
        double[] held = [.. sets.Select(set => set.Sum(element => found[element]))];
        // Shares that overpay a set by the solver's tolerance are made smaller until they do not.
        double scale = 1 / Math.Max(1, held.DefaultIfEmpty(0).Max());
        return new LinearCover(
            found.Sum() * scale,
            solved ? Array.ConvertAll(paid, one => Math.Clamp(Math.Abs(one.DualValue()), 0, 1)) : new double[paid.Length],
            Array.ConvertAll(held, one => 1 - (one * scale)));
    }
}
