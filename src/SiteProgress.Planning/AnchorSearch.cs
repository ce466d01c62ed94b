using System.Diagnostics;
using Google.OrTools.Sat;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.SetUps;

namespace SiteProgress.Planning;

/// <summary>
/// Betters layings and set-ups together: again and again a few neighbouring layings are taken up, and where they are laid anew, how many
/// of them there are, and which set-ups are made in and about them is chosen at once by CP-SAT of OR-Tools, in hours. All else stays.
/// (Large neighbourhood search; Shaw, 1998, from memory.)
/// </summary>
internal sealed class AnchorSearch
{
    // Sizes of neighbourhoods, small ones first; layings go back and forth by so many steps of the middles' own raster.
    private static readonly int[] Sizes = [2, 3, 4];
    private const int MostPlaces = 400; // More places of a laying than this make the question too large for its share of the time.

    private readonly BargePlanRequest _request;
    private readonly SetUpPlaces _places;
    private readonly bool[] _pinned;
    private readonly double[] _xs, _ys;
    private readonly long _layingCost, _setUpCost;
    private readonly Dictionary<(long, long), List<int>> _squares = [];
    private readonly HashSet<string> _asked = [];
    private List<SiteCoordinate> _lows;
    private List<int> _chosen;

    private AnchorSearch(BargePlanRequest request, SetUpPlaces places, IReadOnlyCollection<int> pinned, IReadOnlyList<SiteCoordinate> lows, IReadOnlyList<int> chosen)
    {
        (_request, _places, _lows, _chosen) = (request, places, [.. lows], [.. chosen]);
        _pinned = new bool[places.Sets.Count];
        foreach (int one in pinned) _pinned[one] = true;
        _xs = [.. places.Middles.SelectMany(one => one).Select(one => Math.Round(one.XMetres, 3)).Distinct().Order()];
        _ys = [.. places.Middles.SelectMany(one => one).Select(one => Math.Round(one.YMetres, 3)).Distinct().Order()];
        // In hundredths of a minute, as the solver takes whole numbers; a laying that costs nothing still is not laid for nothing.
        (_layingCost, _setUpCost) = (Math.Max(1, (long)Math.Round(request.HoursPerAnchorHours * 6000)), Math.Max(1, (long)Math.Round(request.MinutesPerSetUpMinutes * 100)));
        for (int set = 0; set < places.Sets.Count; set++)
        {
            foreach ((long, long) square in places.Middles[set].Select(Square).Distinct())
            {
                if (!_squares.TryGetValue(square, out List<int>? there)) _squares[square] = there = [];
                there.Add(set);
            }
        }
    }

    /// <summary>Betters a choice.</summary>
    /// <param name="request">What is asked for.</param>
    /// <param name="places">Sets of piles with the middles from which each is built.</param>
    /// <param name="pinned">Sets that must be made.</param>
    /// <param name="lows">Lower corners of the layings.</param>
    /// <param name="chosen">Sets chosen, each held by some laying.</param>
    /// <param name="limit">When to stop; with steps, each layings' turn is taken once a size.</param>
    public static (IReadOnlyList<SiteCoordinate> Lows, IReadOnlyList<int> Chosen) Better(
        BargePlanRequest request, SetUpPlaces places, IReadOnlyCollection<int> pinned, IReadOnlyList<SiteCoordinate> lows, IReadOnlyList<int> chosen, SolverLimit limit)
    {
        AnchorSearch search = new(request, places, pinned, lows, chosen);
        long begin = Stopwatch.GetTimestamp();
        double Left() => limit.Steps is null ? limit.Seconds - Stopwatch.GetElapsedTime(begin).TotalSeconds : double.PositiveInfinity;
        int still = 0;
        for (int round = 0; still < Sizes.Length && (limit.Steps is null || round < Sizes.Length); round++)
        {
            bool bettered = false;
            foreach (SiteCoordinate low in search._lows.OrderByDescending(search.Waste).ThenBy(one => one.YMetres).ThenBy(one => one.XMetres).ToArray())
            {
                if (Left() < 0.05) return (search._lows, search._chosen);
                if (!search._lows.Contains(low)) continue;
                bettered |= search.Turn(low, Sizes[round % Sizes.Length], limit.Steps is null ? new SolverLimit(Math.Min(Left(), limit.Seconds / 20)) : limit with { Steps = limit.Steps / 20 });
            }

            still = bettered ? 0 : still + 1;
        }

        return (search._lows, search._chosen);
    }

    /// <summary>Casings raised in the set-ups of a reach: where most is wasted there is most to save.</summary>
    private int Waste(SiteCoordinate low)
        => _chosen.Where(set => _places.Middles[set].Any(middle => AnchorChoice.Inside(low, _request.Reach, middle))).Sum(set => _request.Barge.Casings.Count - _places.Sets[set].Length);

    /// <summary>Lays a laying and its neighbours anew; true where that saves time.</summary>
    private bool Turn(SiteCoordinate about, int size, SolverLimit limit)
    {
        SiteCoordinate[] taken = [.. _lows.OrderBy(low => Apart(low, about)).Take(size)];
        // The same layings are asked about once: another laying moved beside them gives them another neighbour first.
        if (!_asked.Add(string.Join(' ', taken.OrderBy(one => one.XMetres).ThenBy(one => one.YMetres)))) return false;
        SiteCoordinate[] kept = [.. _lows.Except(taken)];
        (double margin, double aside) = (_request.Reach.AlongMetres, _request.Reach.AcrossMetres);
        double left = taken.Min(one => one.XMetres) - (margin / 2), right = taken.Max(one => one.XMetres) + (margin * 1.5), low = taken.Min(one => one.YMetres) - (aside / 2), high = taken.Max(one => one.YMetres) + (aside * 1.5);
        bool Near(int set) => _places.Middles[set].Any(one => one.XMetres >= left && one.XMetres <= right && one.YMetres >= low && one.YMetres <= high);
        int[] released = [.. _chosen.Where(Near)];
        HashSet<int> built = [.. _chosen.Except(released).SelectMany(set => _places.Sets[set])];
        int[] piles = [.. released.SelectMany(set => _places.Sets[set]).Distinct().Where(pile => !built.Contains(pile)).Order()];
        Dictionary<int, int> rows = piles.Select((pile, row) => KeyValuePair.Create(pile, row)).ToDictionary();
        int[] sets = [.. Within(left, right, low, high).Where(set => _places.Sets[set].Any(rows.ContainsKey))];
        SiteCoordinate[] windows = [.. Windows(taken).Distinct()];
        Question question = new(this, rows, sets, windows, kept, taken, [.. released]);
        if (question.Answer(limit) is not { } better) return false;
        _lows = [.. kept, .. better.Lows];
        _chosen = [.. _chosen.Except(released), .. better.Sets];
        return true;
    }

    /// <summary>Where the taken layings may be laid: anywhere about them where that is few places, else about each by the raster of the middles.</summary>
    private IEnumerable<SiteCoordinate> Windows(SiteCoordinate[] taken)
    {
        (double along, double across) = (_request.Reach.AlongMetres, _request.Reach.AcrossMetres);
        double[] allX = [.. _xs.Where(x => x >= taken.Min(one => one.XMetres) - along && x <= taken.Max(one => one.XMetres) + along)];
        double[] allY = [.. _ys.Where(y => y >= taken.Min(one => one.YMetres) - across && y <= taken.Max(one => one.YMetres) + across)];
        IEnumerable<SiteCoordinate> places = allX.Length * allY.Length <= MostPlaces
            ? allX.SelectMany(x => allY.Select(y => new SiteCoordinate(x, y)))
            : taken.SelectMany(one => About(_xs, one.XMetres, along / 4, 10).SelectMany(x => About(_ys, one.YMetres, across / 4, 5).Select(y => new SiteCoordinate(x, y))));
        return taken.Concat(places);
    }

    /// <summary>Values of a raster about one, every one of them or, where it is fine, so many spread evenly.</summary>
    private static double[] About(double[] raster, double value, double reach, int most)
    {
        double[] near = [.. raster.Where(one => Math.Abs(one - value) <= reach)];
        return near.Length <= most ? near : [.. Enumerable.Range(0, most).Select(place => near[place * (near.Length - 1) / (most - 1)]).Distinct()];
    }

    private IEnumerable<int> Within(double left, double right, double low, double high)
    {
        HashSet<int> found = [];
        (long firstColumn, long firstRow) = Square(new SiteCoordinate(left, low));
        (long lastColumn, long lastRow) = Square(new SiteCoordinate(right, high));
        for (long column = firstColumn; column <= lastColumn; column++)
        {
            for (long row = firstRow; row <= lastRow; row++) found.UnionWith(_squares.GetValueOrDefault((column, row)) ?? []);
        }

        return found.Order();
    }

    private double Apart(SiteCoordinate one, SiteCoordinate other)
        => Math.Max(Math.Abs(one.XMetres - other.XMetres) / Math.Max(1, _request.Reach.AlongMetres), Math.Abs(one.YMetres - other.YMetres) / Math.Max(1, _request.Reach.AcrossMetres));

    private (long, long) Square(SiteCoordinate at) => ((long)Math.Floor(at.XMetres / 10), (long)Math.Floor(at.YMetres / 10));

    /// <summary>A neighbourhood as a question to the solver.</summary>
    private sealed class Question(AnchorSearch search, Dictionary<int, int> rows, int[] sets, SiteCoordinate[] windows, SiteCoordinate[] kept, SiteCoordinate[] taken, HashSet<int> released)
    {
        public (IReadOnlyList<SiteCoordinate> Lows, IReadOnlyList<int> Sets)? Answer(SolverLimit limit)
        {
            CpModel model = new();
            BoolVar[] laid = [.. windows.Select(_ => model.NewBoolVar(""))];
            for (int window = 0; window < laid.Length; window++) model.AddHint(laid[window], taken.Contains(windows[window]) ? 1 : 0);
            List<ILiteral>[] builds = [.. rows.Select(_ => new List<ILiteral>())];
            List<(int Set, BoolVar Made)> made = [];
            foreach (int set in sets)
            {
                SiteCoordinate[] middles = search._places.Middles[set];
                bool isHeld = middles.Any(middle => kept.Any(low => AnchorChoice.Inside(low, search._request.Reach, middle)));
                ILiteral[] holding = isHeld ? [] : [.. Enumerable.Range(0, windows.Length).Where(window => middles.Any(middle => AnchorChoice.Inside(windows[window], search._request.Reach, middle))).Select(window => laid[window])];
                if (!isHeld && holding.Length == 0) continue;
                BoolVar one = model.NewBoolVar("");
                if (!isHeld) model.AddBoolOr([one.Not(), .. holding]);
                if (search._pinned[set] && released.Contains(set)) model.Add(one == 1);
                model.AddHint(one, released.Contains(set) ? 1 : 0);
                made.Add((set, one));
                foreach (int pile in search._places.Sets[set])
                {
                    if (rows.TryGetValue(pile, out int row)) builds[row].Add(one);
                }
            }

            foreach (List<ILiteral> any in builds) model.AddBoolOr(any);
            long before = (taken.Length * search._layingCost) + (released.Count * search._setUpCost);
            LinearExpr cost = (search._layingCost * LinearExpr.Sum(laid)) + (search._setUpCost * LinearExpr.Sum(made.Select(one => one.Made)));
            // Only what is better is of use, and that cut lets the solver say sooner that there is nothing.
            model.Add(cost <= before - 1);
            model.Minimize(cost);
            CpSolver solver = new() { StringParameters = Parameters(limit) };
            if (solver.Solve(model) is not (CpSolverStatus.Optimal or CpSolverStatus.Feasible)) return null;
            return ([.. windows.Where((_, window) => solver.BooleanValue(laid[window]))], [.. made.Where(one => solver.BooleanValue(one.Made)).Select(one => one.Set)]);
        }

        private static string Parameters(SolverLimit limit) => limit.Steps is { } steps
            ? FormattableString.Invariant($"max_deterministic_time:{steps} num_workers:1 random_seed:7 linearization_level:2")
            : FormattableString.Invariant($"max_time_in_seconds:{limit.Seconds} num_workers:4 random_seed:7 linearization_level:2");
    }
}
