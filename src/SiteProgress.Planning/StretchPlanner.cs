using SiteProgress.Core.SetUps;

namespace SiteProgress.Planning;

/// <summary>
/// Plans a barge whose casings may be set to other spacings. Each zone, which has one design, is built with one spacing; zones of one
/// spacing are a stretch, begun with a change that costs hours unless the casings stand so already. Every way to share spacings out over
/// the zones is weighed by the fewest layings and set-ups of each zone, and the best is planned.
/// </summary>
internal static class StretchPlanner
{
    // More than this many ways are not weighed; eight zones with three spacings are 6,561.
    private const int MostWays = 20_000;
    private const double UnreachedHours = 1_000; // A pile that stays unbuilt outweighs any hours.

    public static BargePlanResult Plan(BargePlanRequest request, SolverLimit limit, IProgress<PlanStep>? steps, CancellationToken cancellation)
    {
        double[] spacings = [.. request.Spacings!.Metres.Distinct()];
        BargePlanRequest asItStands = request with { Spacings = null };
        if (CasingSpacing.Of(request.Barge) is not { } now) return Told("The casings stand in no evenly divided line, so other spacings were not weighed.");
        string[] zones = [.. request.Piles.Select(pile => pile.Zone).Distinct().Order(StringComparer.Ordinal)];
        if (spacings.Length == 0 || Math.Pow(spacings.Length, zones.Length) > MostWays) return Told("There are too many zones and spacings to weigh every way; the casings stay as they are.");
        if (zones.Length == 0) return BargePlanner.AsItStands(asItStands, limit, steps, cancellation);
        double[][] hours = [.. zones.Select(zone => spacings.Select(spacing => Estimate(Of(asItStands, spacing, [zone]), BargePlanner.Part(limit, 0.15 / (zones.Length * spacings.Length)))).ToArray())];
        int[] way = Best(hours, spacings, now, request.Spacings.HoursPerChangeHours);
        (double Spacing, string[] Zones)[] stretches = [.. zones.Select((zone, place) => (Zone: zone, Spacing: spacings[way[place]])).GroupBy(one => one.Spacing)
            .OrderBy(stretch => CasingSpacing.IsSame(stretch.Key, now) ? 0 : 1).ThenBy(stretch => stretch.Key).Select(stretch => (stretch.Key, stretch.Select(one => one.Zone).ToArray()))];
        List<(double Spacing, string[] Zones, BargePlanResult Plan)> planned = [];
        BargePlanRequest next = asItStands;
        foreach ((double spacing, string[] of) in stretches)
        {
            BargePlanRequest part = Of(next, spacing, of);
            BargePlanResult plan = BargePlanner.AsItStands(part, BargePlanner.Part(limit, 0.85 * part.Piles.Count / request.Piles.Count), steps, cancellation);
            planned.Add((spacing, of, plan));
            // The next stretch begins where this one ends.
            if (plan.Anchors.Count > 0) next = next with { Lies = plan.Anchors[^1].SetUps[^1].Casings };
        }

        return Together(request, now, planned);

        BargePlanResult Told(string problem)
        {
            BargePlanResult plan = BargePlanner.AsItStands(asItStands, limit, steps, cancellation);
            return plan with { Problems = [.. plan.Problems, problem] };
        }
    }

    private static BargePlanRequest Of(BargePlanRequest request, double spacing, string[] zones)
    {
        OpenPile[] piles = [.. request.Piles.Where(pile => zones.Contains(pile.Zone))];
        HashSet<string> numbers = new(piles.Select(pile => pile.Number), StringComparer.OrdinalIgnoreCase);
        return request with
        {
            Piles = piles,
            Barge = CasingSpacing.With(request.Barge, spacing),
            Pinned = [.. request.Pinned.Where(together => together.Count == 0 || together.Any(numbers.Contains))],
        };
    }

    /// <summary>Hours that hardly any plan of a zone is below: the fewest layings and, whatever they are, the fewest set-ups.</summary>
    private static double Estimate(BargePlanRequest request, SolverLimit limit)
    {
        Keepings keepings = new(request);
        SetUpProblem whole = new(request.Piles, request.Barge.Casings, request.HeadingsDegrees, request.FitMetres);
        IReadOnlyList<SetUpCandidate> candidates = SetUpCandidates.Of(whole, keepings.Allows);
        HashSet<int> reached = [.. candidates.SelectMany(candidate => candidate.Builds).Select(over => over.Pile)];
        double unreached = (request.Piles.Count - reached.Count) * UnreachedHours;
        if (unreached > 0)
        {
            request = request with { Piles = [.. request.Piles.Where((_, pile) => reached.Contains(pile))] };
            whole = whole with { Piles = request.Piles };
            candidates = SetUpCandidates.Of(whole, keepings.Allows);
        }

        int setUps = BargePlanner.Solve(whole, candidates, [.. QuickCover.Of(whole, candidates)], [], BargePlanner.Part(limit, 0.5)).Chosen.Count;
        int anchors = AnchorChoice.Fewest(request, candidates, [], BargePlanner.Part(limit, 0.5)).Lows.Count;
        return unreached + BargePlanner.Effort(request, anchors, setUps).WorkHours;
    }

    /// <summary>For each zone the place of its spacing, so that work and changes take the fewest hours.</summary>
    internal static int[] Best(double[][] hours, double[] spacings, double now, double change)
    {
        int[] way = new int[hours.Length], best = [];
        double least = double.PositiveInfinity;
        bool all;
        do
        {
            int[] used = [.. way.Distinct()];
            double sum = way.Select((spacing, zone) => hours[zone][spacing]).Sum() + (change * used.Count(spacing => !CasingSpacing.IsSame(spacings[spacing], now)));
            if (sum < least - 1e-9) (best, least) = ([.. way], sum);
            int place = 0;
            while (place < way.Length && ++way[place] == spacings.Length) way[place++] = 0;
            all = place == way.Length;
        }
        while (!all);
        return best;
    }

    private static BargePlanResult Together(BargePlanRequest request, double now, List<(double Spacing, string[] Zones, BargePlanResult Plan)> planned)
    {
        List<PlannedAnchor> anchors = [];
        int number = 0;
        foreach ((double spacing, _, BargePlanResult plan) in planned)
        {
            foreach (PlannedAnchor anchor in plan.Anchors)
                anchors.Add(anchor with { Number = anchors.Count + 1, SpacingMetres = spacing, SetUps = [.. anchor.SetUps.Select(one => one with { Number = ++number })] });
        }

        SpacingStretch[] stretches = [.. planned.Where(one => one.Plan.Anchors.Count > 0)
            .Select(one => new SpacingStretch(one.Spacing, one.Zones, !CasingSpacing.IsSame(one.Spacing, now), one.Plan.Anchors.Count, one.Plan.SetUpCount))];
        double changes = stretches.Count(one => one.Changes) * request.Spacings!.HoursPerChangeHours;
        PlanEffort Sum(Func<BargePlanResult, PlanEffort> of) => BargePlanner.Effort(request, planned.Sum(one => of(one.Plan).Anchors), planned.Sum(one => of(one.Plan).SetUps)) is var sum
            ? sum with { WorkHours = sum.WorkHours + changes } : default;
        return new BargePlanResult(
            anchors,
            new PlanBounds(Sum(plan => plan.Bounds.Plan), Sum(plan => plan.Bounds.Least), planned.Sum(one => one.Plan.Bounds.ByCount), planned.Sum(one => one.Plan.Bounds.WithinAnchors)),
            RowByRow.Of(request),
            [.. planned.SelectMany(one => one.Plan.Unreached)],
            [.. planned.SelectMany(one => one.Plan.Problems)],
            Stretches: stretches);
    }
}
