using SiteProgress.Core.Coordinates;
using SiteProgress.Core.SetUps;

namespace SiteProgress.Planning;

/// <summary>
/// Sets of piles that one set-up builds, each with every place from which it builds them: also those that build less than another
/// place, as with the anchors where they lie the other may be out of reach.
/// </summary>
internal sealed class SetUpPlaces
{
    private readonly Dictionary<string, int> _byKey;

    private SetUpPlaces(List<int[]> sets, List<SiteCoordinate[]> middles, List<SetUpCandidate[]> candidates) 
    {
        (Sets, Middles, Candidates) = (sets, middles, candidates);
        All = [.. candidates.SelectMany(one => one)];
        _byKey = candidates.Select((same, set) => KeyValuePair.Create(Key(same[0]), set)).ToDictionary();
    }

    /// <summary>Piles of each set, in order.</summary>
    public IReadOnlyList<int[]> Sets { get; }

    /// <summary>Middles of the casings from which a set is built.</summary>
    public IReadOnlyList<SiteCoordinate[]> Middles { get; }

    /// <summary>Set-ups that build a set, in the order of the middles.</summary>
    public IReadOnlyList<SetUpCandidate[]> Candidates { get; }

    /// <summary>All of them in one row: those of the first set, those of the second, and so on.</summary>
    public IReadOnlyList<SetUpCandidate> All { get; }

    /// <summary>The set that a set-up builds.</summary>
    public int SetOf(SetUpCandidate one) => _byKey[Key(one)];

    /// <summary>Place in <see cref="All"/> of the first candidate of a set.</summary>
    public int FirstOf(int set) => Candidates.Take(set).Sum(same => same.Length);

    /// <summary>Sets that some reach holds, without those that are part of another one held.</summary>
    public int[] HeldBy(IReadOnlyList<SiteCoordinate> lows, AnchorReach reach)
    {
        int[] held = [.. Enumerable.Range(0, Sets.Count).Where(set => Held(set, lows, reach) is not null)];
        HashSet<string> parts = [.. held.SelectMany(set => PartsOf(Sets[set]))];
        return [.. held.Where(set => !parts.Contains(string.Join(' ', Sets[set])))];
    }

    private static IEnumerable<string> PartsOf(int[] piles)
    {
        for (int mask = 1; mask < (1 << piles.Length) - 1; mask++) yield return string.Join(' ', piles.Where((_, place) => (mask & (1 << place)) != 0));
    }

    private static string Key(SetUpCandidate one) => string.Join(' ', one.Builds.Select(over => over.Pile).Order());

    /// <summary>Groups candidates by what they build; those of the same middle once.</summary>
    public static SetUpPlaces Of(BargePlanRequest request, IReadOnlyList<SetUpCandidate> every)
    {
        List<int[]> sets = [];
        List<SiteCoordinate[]> middles = [];
        List<SetUpCandidate[]> candidates = [];
        foreach (IGrouping<string, SetUpCandidate> same in every.GroupBy(Key))
        {
            (SetUpCandidate One, SiteCoordinate Middle)[] places = [.. same.Select(one => (one, BargePlanner.Middle(request, one))).DistinctBy(one => (Math.Round(one.Item2.XMetres, 2), Math.Round(one.Item2.YMetres, 2)))];
            sets.Add([.. same.First().Builds.Select(over => over.Pile).Order()]);
            middles.Add(Array.ConvertAll(places, one => one.Middle));
            candidates.Add(Array.ConvertAll(places, one => one.One));
        }

        return new SetUpPlaces(sets, middles, candidates);
    }

    /// <summary>The first candidate of a set that one of the reaches holds; null where none does.</summary>
    public SetUpCandidate? Held(int set, IReadOnlyList<SiteCoordinate> lows, AnchorReach reach)
    {
        for (int place = 0; place < Middles[set].Length; place++)
        {
            SiteCoordinate middle = Middles[set][place];
            if (lows.Any(low => AnchorChoice.Inside(low, reach, middle))) return Candidates[set][place];
        }

        return null;
    }
}
