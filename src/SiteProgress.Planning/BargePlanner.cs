using SiteProgress.Core.Coordinates;
using SiteProgress.Core.SetUps;

namespace SiteProgress.Planning;

/// <summary>
/// Plans a barge's work: first the fewest layings of the anchors, which cost hours each, then the fewest set-ups within them, which
/// cost minutes each, then a short order of both from where the barge lies.
/// </summary>
public static class BargePlanner
{
    /// <summary>Makes a plan.</summary>
    /// <param name="request">What is asked for.</param>
    /// <param name="limit">When the solver stops; the time is shared out over its three questions.</param>
    public static BargePlanResult Plan(BargePlanRequest request, SolverLimit limit)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(limit);
        Keepings keepings = new(request);
        SetUpProblem whole = new(request.Piles, request.Barge.Casings, request.HeadingsDegrees, request.FitMetres);
        IReadOnlyList<SetUpCandidate> candidates = SetUpCandidates.Of(whole, keepings.Allows);
        HashSet<int> reached = [.. candidates.SelectMany(candidate => candidate.Builds).Select(over => over.Pile)];
        string[] unreached = [.. request.Piles.Where((_, pile) => !reached.Contains(pile)).Select(pile => pile.Number)];
        if (unreached.Length > 0)
        {
            BargePlanResult rest = Plan(request with { Piles = [.. request.Piles.Where((_, pile) => reached.Contains(pile))] }, limit);
            return rest with { Unreached = unreached };
        }

        if (request.Piles.Count == 0) return new BargePlanResult([], new PlanBounds(default, default, 0), default, [], []);
        SolverLimit third = limit with { Seconds = limit.Seconds / 3 };
        (IReadOnlyList<int> pinned, string[] problems) = keepings.Pinned(candidates);
        Cover free = Solve(whole, candidates, pinned, third);
        AnchorChoice anchors = AnchorChoice.Of(request, candidates, pinned, third);
        SetUpCandidate[] within = [.. candidates.Where((_, index) => anchors.Holds(index))];
        int[] pinnedWithin = [.. pinned.Select(one => Array.IndexOf(within, candidates[one]))];
        Cover inside = Solve(whole, within, pinnedWithin, third);
        PlannedAnchor[] planned = new PlanOrder(request, anchors).Of([.. inside.Chosen.Select(one => within[one])]);
        int setUps = planned.Sum(anchor => anchor.SetUps.Count);
        // What no plan of any anchors can beat is the bound of the free question.
        int byCount = (request.Piles.Count + request.Barge.Casings.Count - 1) / request.Barge.Casings.Count;
        PlanBounds bounds = new(
            Effort(request, planned.Length, setUps), Effort(request, Math.Max(1, anchors.Bound), Math.Max(free.Bound, byCount)), byCount);
        return new BargePlanResult(planned, bounds, RowByRow.Of(request), [], problems);
    }

    internal static PlanEffort Effort(BargePlanRequest request, int anchors, int setUps)
        => new(anchors, setUps, (anchors * request.HoursPerAnchorHours) + (setUps * request.MinutesPerSetUpMinutes / 60));

    internal static SiteCoordinate Middle(BargePlanRequest request, double headingDegrees, SiteCoordinate reference)
    {
        (double X, double Y)[] offsets = [.. request.Barge.Casings.Select(casing => SetUpCandidates.Offset(casing, headingDegrees))];
        return new SiteCoordinate(reference.XMetres + offsets.Average(one => one.X), reference.YMetres + offsets.Average(one => one.Y));
    }

    private static Cover Solve(SetUpProblem problem, IReadOnlyList<SetUpCandidate> candidates, IReadOnlyCollection<int> pinned, SolverLimit limit)
        => CoverSolver.Solve(
            problem.Piles.Count,
            [.. candidates.Select(candidate => candidate.Builds.Select(over => over.Pile).ToArray())],
            [.. QuickCover.Of(problem, candidates)],
            pinned,
            limit);
}
