using SiteProgress.Core.Coordinates;
using SiteProgress.Core.SetUps;

namespace SiteProgress.Planning;

/// <summary>Puts anchors and the set-ups within them in a short order, beginning where the barge lies.</summary>
internal sealed class PlanOrder(BargePlanRequest request, IReadOnlyList<SiteCoordinate> lows)
{
    public PlannedAnchor[] Of(SetUpCandidate[] chosen)
    {
        List<(SetUpCandidate SetUp, SiteCoordinate Middle)>[] within = [.. lows.Select(_ => new List<(SetUpCandidate, SiteCoordinate)>())];
        foreach (SetUpCandidate setUp in chosen)
        {
            SiteCoordinate middle = BargePlanner.Middle(request, setUp);
            int nearest = Enumerable.Range(0, within.Length).Where(one => AnchorChoice.Inside(lows[one], request.Reach, middle)).MinBy(one => Distance(Centre(lows[one]), middle));
            within[nearest].Add((setUp, middle));
        }

        int[] used = [.. Enumerable.Range(0, within.Length).Where(one => within[one].Count > 0)];
        SiteCoordinate at = request.Lies ?? new SiteCoordinate(used.Min(one => lows[one].XMetres), used.Min(one => lows[one].YMetres));
        int[] order = request.DirectionDegrees is { } direction ? Advancing(used, direction) : Short([.. used.Select(one => Centre(lows[one]))], at).Select(place => used[place]).ToArray();
        Dictionary<string, SetUpCandidate> reserved = Reserved(chosen);
        HashSet<string> built = [];
        List<PlannedAnchor> planned = [];
        int number = 0;
        foreach (int anchor in order)
        {
            List<PlannedSetUp> setUps = [];
            foreach (int place in Short([.. within[anchor].Select(one => one.Middle)], at))
            {
                (SetUpCandidate setUp, SiteCoordinate middle) = within[anchor][place];
                // A pile reached twice is built the first time; the second time its casing stays raised.
                CasingBuilds[] builds = [.. setUp.Builds.Select(over => new CasingBuilds(over.Casing, request.Piles[over.Pile].Number))
                    .Where(one => (!reserved.TryGetValue(one.Pile, out SetUpCandidate? of) || ReferenceEquals(of, setUp)) && built.Add(one.Pile))];
                if (builds.Length > 0) setUps.Add(new PlannedSetUp(++number, setUp.HeadingDegrees, setUp.Reference, at = middle, builds));
            }

            SiteCoordinate low = lows[anchor];
            if (setUps.Count > 0)
                planned.Add(new PlannedAnchor(planned.Count + 1, low, new SiteCoordinate(low.XMetres + request.Reach.AlongMetres, low.YMetres + request.Reach.AcrossMetres), setUps));
        }

        return [.. planned];
    }

    /// <summary>Piles of the fixed set-ups: no other set-up builds them before.</summary>
    private Dictionary<string, SetUpCandidate> Reserved(SetUpCandidate[] chosen)
    {
        Dictionary<string, SetUpCandidate> reserved = new(StringComparer.OrdinalIgnoreCase);
        foreach (IReadOnlyList<string> together in request.Pinned)
        {
            SetUpCandidate? holder = Array.Find(chosen, one => together.All(pile => one.Builds.Any(over => string.Equals(request.Piles[over.Pile].Number, pile, StringComparison.OrdinalIgnoreCase))));
            if (holder is null) continue;
            foreach (string pile in together) reserved.TryAdd(pile, holder);
        }

        return reserved;
    }

    private SiteCoordinate Centre(SiteCoordinate low) => new(low.XMetres + (request.Reach.AlongMetres / 2), low.YMetres + (request.Reach.AcrossMetres / 2));

    /// <summary>Strip after strip in the direction of advance, to and fro across it.</summary>
    private int[] Advancing(int[] used, double directionDegrees)
    {
        (double sine, double cosine) = Math.SinCos(directionDegrees * Math.PI / 180);
        double Ahead(int one) => (Centre(lows[one]).XMetres * sine) + (Centre(lows[one]).YMetres * cosine);
        double Aside(int one) => (Centre(lows[one]).XMetres * cosine) - (Centre(lows[one]).YMetres * sine);
        double strip = Math.Abs(request.Reach.AlongMetres * sine) + Math.Abs(request.Reach.AcrossMetres * cosine);
        return [.. used.GroupBy(one => Math.Floor(Ahead(one) / strip)).OrderBy(group => group.Key)
            .SelectMany((group, index) => index % 2 == 0 ? group.OrderBy(Aside) : group.OrderByDescending(Aside))];
    }

    /// <summary>A short open way through all points from a beginning: nearest next, then turned round in parts (2-opt) while that shortens it.</summary>
    internal static int[] Short(SiteCoordinate[] points, SiteCoordinate from)
    {
        List<int> left = [.. Enumerable.Range(0, points.Length)];
        List<int> way = [];
        for (SiteCoordinate at = from; left.Count > 0; at = points[way[^1]])
        {
            int next = left.MinBy(one => Distance(points[one], at));
            left.Remove(next);
            way.Add(next);
        }

        double To(int place) => Distance(place < 0 ? from : points[way[place]], points[way[place + 1]]);
        bool shorter = points.Length < 800;
        for (int round = 0; shorter && round < 20; round++)
        {
            shorter = false;
            for (int first = 0; first < way.Count - 1; first++)
            {
                for (int last = first + 1; last < way.Count; last++)
                {
                    double now = To(first - 1) + (last + 1 < way.Count ? To(last) : 0);
                    SiteCoordinate before = first == 0 ? from : points[way[first - 1]];
                    double then = Distance(before, points[way[last]]) + (last + 1 < way.Count ? Distance(points[way[first]], points[way[last + 1]]) : 0);
                    if (then >= now - 1e-9) continue;
                    way.Reverse(first, last - first + 1);
                    shorter = true;
                }
            }
        }

        return [.. way];
    }

    private static double Distance(SiteCoordinate a, SiteCoordinate b) => Math.Sqrt(((a.XMetres - b.XMetres) * (a.XMetres - b.XMetres)) + ((a.YMetres - b.YMetres) * (a.YMetres - b.YMetres)));
}
