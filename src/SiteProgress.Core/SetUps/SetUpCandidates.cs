using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.SetUps;

/// <summary>
/// Every barge position worth considering: with some casing exactly over some outstanding pile, and every other casing that then
/// stands over one too. A position whose piles are all built from a better one is left out: there the casing simply stays raised.
/// </summary>
public static class SetUpCandidates
{
    /// <summary>The candidates, by heading and place.</summary>
    /// <param name="problem">The piles and the barge.</param>
    /// <param name="allows">False for a heading and reference point the barge may not take; null where it may take any.</param>
    public static IReadOnlyList<SetUpCandidate> Of(SetUpProblem problem, Func<double, SiteCoordinate, bool>? allows = null)
    {
        return Largest(Every(problem, allows));
    }

    /// <summary>Of all positions those that build what no other builds with more, one for each set of piles, by heading and place.</summary>
    public static IReadOnlyList<SetUpCandidate> Largest(IReadOnlyList<SetUpCandidate> every)
    {
        ArgumentNullException.ThrowIfNull(every);
        Dictionary<string, SetUpCandidate> bySet = [];
        foreach (SetUpCandidate candidate in every) bySet.TryAdd(Key(candidate.Builds.Select(one => one.Pile)), candidate);
        HashSet<string> within = [.. bySet.Values.SelectMany(PartsOf)];
        return bySet.Where(one => !within.Contains(one.Key)).Select(one => one.Value).ToArray();
    }

    /// <summary>
    /// Every position with some casing exactly over some outstanding pile, also those that build less than another: where the anchors lie
    /// that other may be out of reach. By heading and place.
    /// </summary>
    /// <param name="problem">The piles and the barge.</param>
    /// <param name="allows">False for a heading and reference point the barge may not take; null where it may take any.</param>
    public static IReadOnlyList<SetUpCandidate> Every(SetUpProblem problem, Func<double, SiteCoordinate, bool>? allows = null)
    {
        ArgumentNullException.ThrowIfNull(problem);
        PilePlaces places = new(problem);
        List<SetUpCandidate> every = [];
        HashSet<(double, long, long, string)> taken = [];
        foreach (double heading in problem.HeadingsDegrees)
        {
            (double X, double Y)[] offsets = problem.Casings.Select(casing => Offset(casing, heading)).ToArray();
            for (int pile = 0; pile < problem.Piles.Count; pile++)
            {
                for (int casing = 0; casing < offsets.Length; casing++)
                {
                    SetUpCandidate candidate = At(problem, places, offsets, heading, pile, casing);
                    // To the centimetre a position is one, whichever casing it was reckoned from.
                    if (!taken.Add((heading, (long)Math.Round(candidate.Reference.XMetres * 100), (long)Math.Round(candidate.Reference.YMetres * 100), Key(candidate.Builds.Select(one => one.Pile))))) continue;
                    if (allows is null || allows(heading, candidate.Reference)) every.Add(candidate);
                }
            }
        }

        return every;
    }

    /// <summary>Where a casing stands from the reference point on a heading, metres on the site grid.</summary>
    public static (double X, double Y) Offset(Casing casing, double headingDegrees)
    {
        ArgumentNullException.ThrowIfNull(casing);
        (double sine, double cosine) = Math.SinCos(headingDegrees * Math.PI / 180);
        return ((casing.ForwardMetres * sine) + (casing.StarboardMetres * cosine), (casing.ForwardMetres * cosine) - (casing.StarboardMetres * sine));
    }

    private static SetUpCandidate At(SetUpProblem problem, PilePlaces places, (double X, double Y)[] offsets, double heading, int pile, int over)
    {
        SiteCoordinate position = problem.Piles[pile].Position;
        SiteCoordinate reference = new(position.XMetres - offsets[over].X, position.YMetres - offsets[over].Y);
        List<CasingOverPile> builds = [];
        for (int casing = 0; casing < offsets.Length; casing++)
        {
            int found = casing == over ? pile : places.Nearest(reference.XMetres + offsets[casing].X, reference.YMetres + offsets[casing].Y);
            if (found >= 0 && builds.TrueForAll(one => one.Pile != found)) builds.Add(new CasingOverPile(problem.Casings[casing].Number, found));
        }

        return new SetUpCandidate(heading, reference, builds);
    }

    private static IEnumerable<string> PartsOf(SetUpCandidate candidate)
    {
        int[] piles = candidate.Builds.Select(one => one.Pile).Order().ToArray();
        // All real parts: three casings have six, and no barge has many more casings than that.
        for (int mask = 1; mask < (1 << piles.Length) - 1; mask++)
            yield return Key(piles.Where((_, index) => (mask & (1 << index)) != 0));
    }

    private static string Key(IEnumerable<int> piles) => string.Join(' ', piles.Order());

    /// <summary>Finds the pile at a point, by squares of the fit's own size.</summary>
    private sealed class PilePlaces
    {
        private readonly SetUpProblem _problem;
        private readonly double _side;
        private readonly Dictionary<(long, long), List<int>> _squares = [];

        public PilePlaces(SetUpProblem problem)
        {
            _problem = problem;
            _side = Math.Max(problem.FitMetres * 2, 0.5);
            for (int pile = 0; pile < problem.Piles.Count; pile++)
            {
                (long, long) square = Square(problem.Piles[pile].Position.XMetres, problem.Piles[pile].Position.YMetres);
                if (!_squares.TryGetValue(square, out List<int>? there)) _squares[square] = there = [];
                there.Add(pile);
            }
        }

        public int Nearest(double x, double y)
        {
            (long column, long row) = Square(x, y);
            int nearest = -1;
            double least = _problem.FitMetres;
            for (long dx = -1; dx <= 1; dx++)
            {
                for (long dy = -1; dy <= 1; dy++)
                {
                    if (!_squares.TryGetValue((column + dx, row + dy), out List<int>? there)) continue;
                    foreach (int pile in there)
                    {
                        SiteCoordinate at = _problem.Piles[pile].Position;
                        double distance = Math.Sqrt(((at.XMetres - x) * (at.XMetres - x)) + ((at.YMetres - y) * (at.YMetres - y)));
                        if (distance <= least) (nearest, least) = (pile, distance);
                    }
                }
            }

            return nearest;
        }

        private (long, long) Square(double x, double y) => ((long)Math.Floor(x / _side), (long)Math.Floor(y / _side));
    }
}
