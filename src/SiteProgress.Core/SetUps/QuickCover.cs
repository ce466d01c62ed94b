using SiteProgress.Core.Coordinates;

namespace SiteProgress.Core.SetUps;

/// <summary>
/// Few set-ups that build all piles, found at once without a solver: row by row on each heading, where taking the farthest reach from
/// the first pile left is the best there is; and largest first over all headings. The better of them counts.
/// </summary>
public static class QuickCover
{
    /// <summary>The set-ups chosen, as places among the candidates.</summary>
    public static IReadOnlyList<int> Of(SetUpProblem problem, IReadOnlyList<SetUpCandidate> candidates)
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(candidates);
        IReadOnlyList<int> best = LargestFirst(problem, candidates);
        foreach (double heading in problem.HeadingsDegrees)
        {
            IReadOnlyList<int> rows = RowByRow(problem, candidates, heading);
            if (rows.Count < best.Count) best = rows;
        }

        return best;
    }

    private static List<int> LargestFirst(SetUpProblem problem, IReadOnlyList<SetUpCandidate> candidates)
    {
        bool[] built = new bool[problem.Piles.Count];
        List<int> chosen = [];
        // Counts only fall, so one pass for each size from the largest down meets every candidate when its turn has come.
        for (int size = problem.Casings.Count; size >= 1; size--)
        {
            for (int candidate = 0; candidate < candidates.Count; candidate++)
            {
                if (candidates[candidate].Builds.Count(over => !built[over.Pile]) < size) continue;
                chosen.Add(candidate);
                foreach (CasingOverPile over in candidates[candidate].Builds) built[over.Pile] = true;
            }
        }

        return chosen;
    }

    /// <summary>The set-ups along the rows of a heading, each from the first pile left, as places among the candidates.</summary>
    public static IReadOnlyList<int> RowByRow(SetUpProblem problem, IReadOnlyList<SetUpCandidate> candidates, double headingDegrees)
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(candidates);
        List<int>[] ofPile = Enumerable.Range(0, problem.Piles.Count).Select(_ => new List<int>()).ToArray();
        for (int candidate = 0; candidate < candidates.Count; candidate++)
        {
            foreach (CasingOverPile over in candidates[candidate].Builds) ofPile[over.Pile].Add(candidate);
        }

        (double sine, double cosine) = Math.SinCos(headingDegrees * Math.PI / 180);
        double Along(SiteCoordinate at) => (at.XMetres * cosine) - (at.YMetres * sine);
        double Across(SiteCoordinate at) => (at.XMetres * sine) + (at.YMetres * cosine);
        bool[] built = new bool[problem.Piles.Count];
        List<int> chosen = [];
        int[] order = Enumerable.Range(0, problem.Piles.Count)
            .OrderBy(pile => Math.Round(Across(problem.Piles[pile].Position), 1)).ThenBy(pile => Along(problem.Piles[pile].Position)).ToArray();
        foreach (int pile in order.Where(one => !built[one]))
        {
            int taken = ofPile[pile].OrderByDescending(one => candidates[one].Builds.Count(over => !built[over.Pile]))
                .ThenBy(one => candidates[one].HeadingDegrees == headingDegrees ? 0 : 1)
                .ThenByDescending(one => candidates[one].Builds.Max(over => Along(problem.Piles[over.Pile].Position)))
                .First();
            chosen.Add(taken);
            foreach (CasingOverPile over in candidates[taken].Builds) built[over.Pile] = true;
        }

        return chosen;
    }
}
