namespace SiteProgress.Planning;

/// <summary>
/// A part of a cover that has nothing to do with the rest: no set lies in two parts, so each is solved for itself and bounds add up.
/// </summary>
/// <param name="Elements">Number of elements.</param>
/// <param name="Sets">Sets, as elements of the part.</param>
/// <param name="Places">Place of each set in the whole.</param>
internal sealed record CoverPart(int Elements, IReadOnlyList<IReadOnlyList<int>> Sets, IReadOnlyList<int> Places)
{
    /// <summary>The parts of what is still to be covered.</summary>
    /// <param name="elements">Number of elements.</param>
    /// <param name="sets">The sets, as elements.</param>
    /// <param name="covered">True for elements that need no set any more.</param>
    public static CoverPart[] Of(int elements, IReadOnlyList<IReadOnlyList<int>> sets, bool[] covered)
    {
        int[] above = [.. Enumerable.Range(0, elements)];
        int Root(int element)
        {
            while (above[element] != element) element = above[element] = above[above[element]];
            return element;
        }

        int[][] left = [.. sets.Select(set => set.Where(element => !covered[element]).ToArray())];
        foreach (int[] set in left)
        {
            for (int other = 1; other < set.Length; other++) above[Root(set[other])] = Root(set[0]);
        }

        int[] own = new int[elements];
        Dictionary<int, int> sizes = [];
        for (int element = 0; element < elements; element++)
        {
            if (covered[element]) continue;
            int root = Root(element);
            own[element] = sizes.GetValueOrDefault(root);
            sizes[root] = own[element] + 1;
        }

        return [.. Enumerable.Range(0, sets.Count).Where(set => left[set].Length > 0).GroupBy(set => Root(left[set][0])).Select(part => new CoverPart(
            sizes[part.Key], [.. part.Select(set => (IReadOnlyList<int>)Array.ConvertAll(left[set], element => own[element]))], [.. part]))];
    }

    /// <summary>A cover with the sets of a beginning first, the others by weight, then without those that all others make needless.</summary>
    /// <param name="first">Sets that are taken first, in order, where they add anything.</param>
    /// <param name="weights">Worth of each set for its size; the larger is taken before the smaller of the same gain.</param>
    public List<int> Greedy(IEnumerable<int> first, double[] weights)
    {
        int[] times = new int[Elements];
        List<int> chosen = [];
        void Take(int set)
        {
            chosen.Add(set);
            foreach (int element in Sets[set]) times[element]++;
        }

        int Gain(int set) => Sets[set].Count(element => times[element] == 0);
        foreach (int set in first.Where(set => Gain(set) > 0)) Take(set);
        PriorityQueue<int, double> queue = new(Enumerable.Range(0, Sets.Count).Select(set => (set, -Gain(set) - weights[set])));
        while (queue.TryDequeue(out int set, out double before))
        {
            int gain = Gain(set);
            if (gain == 0) continue;
            if (-gain - weights[set] > before + 1e-9) queue.Enqueue(set, -gain - weights[set]);
            else Take(set);
        }

        for (int place = chosen.Count - 1; place >= 0; place--)
        {
            if (!Sets[chosen[place]].All(element => times[element] > 1)) continue;
            foreach (int element in Sets[chosen[place]]) times[element]--;
            chosen.RemoveAt(place);
        }

        return chosen;
    }
}
