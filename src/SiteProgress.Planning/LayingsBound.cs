using SiteProgress.Core.Coordinates;
using SiteProgress.Core.SetUps;

namespace SiteProgress.Planning;

/// <summary>How many layings any plan has at least, whichever set-ups it makes, those with casings raised among them.</summary>
internal static class LayingsBound
{
    /// <summary>The bound: by linear programming over the reaches that hold the most, or by piles of which no reach holds two.</summary>
    /// <param name="request">What is asked for.</param>
    /// <param name="every">Every position of the barge.</param>
    /// <param name="limit">When to stop.</param>
    public static int Of(BargePlanRequest request, IReadOnlyList<SetUpCandidate> every, SolverLimit limit)
    {
        SiteCoordinate[] middles = [.. every.Select(one => BargePlanner.Middle(request, one))];
        AnchorWindows windows = AnchorWindows.Of(middles, [.. every.Select(one => (IReadOnlyList<int>)[.. one.Builds.Select(over => over.Pile)])], request.Reach);
        IReadOnlyList<int>[] most = Most(request, windows);
        int apart = Apart(request.Piles.Count, most);
        return Math.Max(apart, LinearCover.Of(request.Piles.Count, most, limit.Steps is null ? limit.Seconds : null).Bound);
    }

    /// <summary>The reaches that hold what no other holds with more: the others cannot make a cover smaller.</summary>
    private static IReadOnlyList<int>[] Most(BargePlanRequest request, AnchorWindows windows)
    {
        int words = (request.Piles.Count + 63) / 64;
        List<(SiteCoordinate Low, ulong[] Bits, IReadOnlyList<int> Set)> kept = [];
        Dictionary<(long, long), List<int>> squares = [];
        foreach (int window in Enumerable.Range(0, windows.Sets.Count).OrderByDescending(one => windows.Sets[one].Count))
        {
            ulong[] bits = new ulong[words];
            foreach (int pile in windows.Sets[window]) bits[pile / 64] |= 1UL << (pile % 64);
            SiteCoordinate low = windows.Lows[window];
            (long column, long row) = ((long)Math.Floor(low.XMetres / request.Reach.AlongMetres), (long)Math.Floor(low.YMetres / request.Reach.AcrossMetres));
            // One that holds all of another lies within a reach of it, or both hold nothing of the same; what is missed only costs time.
            bool isPart = Enumerable.Range(-1, 3).SelectMany(dx => Enumerable.Range(-1, 3).Select(dy => squares.GetValueOrDefault((column + dx, row + dy))))
                .Any(there => there is not null && there.Exists(one => IsPart(bits, kept[one].Bits)));
            if (isPart) continue;
            if (!squares.TryGetValue((column, row), out List<int>? own)) squares[(column, row)] = own = [];
            own.Add(kept.Count);
            kept.Add((low, bits, windows.Sets[window]));
        }

        return [.. kept.Select(one => one.Set)];
    }

    private static bool IsPart(ulong[] part, ulong[] whole)
    {
        for (int word = 0; word < part.Length; word++)
        {
            if ((part[word] & ~whole[word]) != 0) return false;
        }

        return true;
    }

    /// <summary>Piles chosen one after the other so that no reach holds two of them: each needs a laying of its own.</summary>
    private static int Apart(int piles, IReadOnlyList<int>[] sets)
    {
        List<int>[] holding = [.. Enumerable.Range(0, piles).Select(_ => new List<int>())];
        for (int set = 0; set < sets.Length; set++)
        {
            foreach (int pile in sets[set]) holding[pile].Add(set);
        }

        bool[] near = new bool[piles];
        int count = 0;
        // Piles of few reaches first: they lie at the edges and rule out few others.
        foreach (int pile in Enumerable.Range(0, piles).OrderBy(pile => holding[pile].Count))
        {
            if (near[pile]) continue;
            count++;
            foreach (int set in holding[pile])
            {
                foreach (int other in sets[set]) near[other] = true;
            }
        }

        return count;
    }
}
