using SiteProgress.Core.Coordinates;
using SiteProgress.Core.SetUps;

namespace SiteProgress.Planning;

/// <summary>
/// The layings of the anchors chosen: the fewest reaches from which every pile can be built by some set-up. A reach is laid so that its
/// lower corner meets the middle of the casings of some set-up in each axis: any other can be moved up to such a one and holds no less.
/// </summary>
internal sealed class AnchorChoice
{
    private readonly SiteCoordinate[] _middles;
    private readonly AnchorReach _reach;

    private AnchorChoice(SiteCoordinate[] middles, AnchorReach reach, SiteCoordinate[] lows, int bound)
        => (_middles, _reach, Lows, Bound) = (middles, reach, lows, bound);

    /// <summary>Lower corners of the chosen reaches.</summary>
    public SiteCoordinate[] Lows { get; }

    /// <summary>No plan has fewer layings.</summary>
    public int Bound { get; }

    public static AnchorChoice Of(BargePlanRequest request, IReadOnlyList<SetUpCandidate> candidates, IReadOnlyCollection<int> pinned, SolverLimit limit)
    {
        SiteCoordinate[] middles = [.. candidates.Select(one => BargePlanner.Middle(request, one.HeadingDegrees, one.Reference))];
        SiteCoordinate[] lows = Corners(middles, request.Reach);
        int[] pinnedOnes = [.. pinned];
        int elements = request.Piles.Count + pinnedOnes.Length;
        List<IReadOnlyList<int>> sets = [];
        List<SiteCoordinate> kept = [];
        HashSet<string> seen = [];
        foreach (SiteCoordinate low in lows)
        {
            HashSet<int> held = [];
            for (int candidate = 0; candidate < middles.Length; candidate++)
            {
                if (!Inside(low, request.Reach, middles[candidate])) continue;
                foreach (CasingOverPile over in candidates[candidate].Builds) held.Add(over.Pile);
                int fixedPlace = Array.IndexOf(pinnedOnes, candidate);
                if (fixedPlace >= 0) held.Add(request.Piles.Count + fixedPlace);
            }

            int[] set = [.. held.Order()];
            if (set.Length == 0 || !seen.Add(string.Join(' ', set))) continue;
            sets.Add(set);
            kept.Add(low);
        }

        Cover cover = CoverSolver.Solve(elements, sets, Greedy(elements, sets), [], limit);
        return new AnchorChoice(middles, request.Reach, [.. cover.Chosen.Select(one => kept[one])], cover.Bound);
    }

    /// <summary>True where a chosen reach holds the set-up.</summary>
    public bool Holds(int candidate) => Lows.Any(low => Inside(low, _reach, _middles[candidate]));

    /// <summary>True where a reach holds a point; a millimetre more, as corners are worked out from points.</summary>
    public static bool Inside(SiteCoordinate low, AnchorReach reach, SiteCoordinate point)
        => point.XMetres >= low.XMetres - 0.001 && point.XMetres <= low.XMetres + reach.AlongMetres + 0.001
            && point.YMetres >= low.YMetres - 0.001 && point.YMetres <= low.YMetres + reach.AcrossMetres + 0.001;

    private static SiteCoordinate[] Corners(SiteCoordinate[] middles, AnchorReach reach)
    {
        double[] xs = [.. middles.Select(one => Math.Round(one.XMetres, 3)).Distinct().Order()];
        double[] ys = [.. middles.Select(one => Math.Round(one.YMetres, 3)).Distinct().Order()];
        HashSet<(long, long)> occupied = [.. middles.Select(one => Square(one, reach))];
        List<SiteCoordinate> corners = [];
        foreach (double x in xs)
        {
            foreach (double y in ys)
            {
                (long column, long row) = Square(new SiteCoordinate(x, y), reach);
                if (occupied.Contains((column, row)) || occupied.Contains((column + 1, row)) || occupied.Contains((column, row + 1)) || occupied.Contains((column + 1, row + 1)))
                    corners.Add(new SiteCoordinate(x, y));
            }
        }

        return [.. corners];
    }

    private static (long, long) Square(SiteCoordinate at, AnchorReach reach) => ((long)Math.Floor(at.XMetres / reach.AlongMetres), (long)Math.Floor(at.YMetres / reach.AcrossMetres));

    private static List<int> Greedy(int elements, List<IReadOnlyList<int>> sets)
    {
        bool[] covered = new bool[elements];
        List<int> chosen = [];
        PriorityQueue<int, int> queue = new(sets.Select((set, index) => (index, -set.Count)));
        while (queue.TryDequeue(out int set, out int before))
        {
            int gain = sets[set].Count(element => !covered[element]);
            if (gain == 0) continue;
            if (gain < -before)
            {
                queue.Enqueue(set, -gain);
                continue;
            }

            chosen.Add(set);
            foreach (int element in sets[set]) covered[element] = true;
        }

        return chosen;
    }
}
