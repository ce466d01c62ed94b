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
    /// <param name="limit">When the solver stops; the time is shared out over its questions.</param>
    /// <param name="steps">Told of each step as it begins; null where nobody waits.</param>
    /// <param name="cancellation">Ends the work at the next step: a question once put to the solver is answered within its share of the time.</param>
    /// <exception cref="OperationCanceledException">The work was ended.</exception>
    public static BargePlanResult Plan(BargePlanRequest request, SolverLimit limit, IProgress<PlanStep>? steps = null, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(limit);
        BargePlanResult plan = request.Spacings is null ? AsItStands(request, limit, steps, cancellation) : StretchPlanner.Plan(request, limit, steps, cancellation);
        if (request.Conditions is null || plan.Anchors.Count == 0) return plan;
        (IReadOnlyList<PlannedAnchor> dated, PlanTimetable timetable) = Timetable.Of(request, plan.Anchors);
        return plan with { Anchors = dated, Timetable = timetable };
    }

    /// <summary>Makes a plan with the casings as they stand, without dates.</summary>
    internal static BargePlanResult AsItStands(BargePlanRequest request, SolverLimit limit, IProgress<PlanStep>? steps, CancellationToken cancellation)
    {
        Next(PlanStep.Positions, steps, cancellation);
        Keepings keepings = new(request);
        SetUpProblem whole = new(request.Piles, request.Barge.Casings, request.HeadingsDegrees, request.FitMetres);
        IReadOnlyList<SetUpCandidate> candidates = SetUpCandidates.Of(whole, keepings.Allows);
        HashSet<int> reached = [.. candidates.SelectMany(candidate => candidate.Builds).Select(over => over.Pile)];
        string[] unreached = [.. request.Piles.Where((_, pile) => !reached.Contains(pile)).Select(pile => pile.Number)];
        if (unreached.Length > 0)
        {
            BargePlanResult rest = AsItStands(request with { Piles = [.. request.Piles.Where((_, pile) => reached.Contains(pile))] }, limit, steps, cancellation);
            return rest with { Unreached = unreached };
        }

        if (request.Piles.Count == 0) return new BargePlanResult([], new PlanBounds(default, default, 0, 0), default, [], []);
        (IReadOnlyList<int> pinned, string[] problems) = keepings.Pinned(candidates);
        return Choose(request, whole, candidates, pinned, limit, step => Next(step, steps, cancellation)) with { Problems = problems };
    }

    /// <summary>
    /// Two ways, of which the one of fewer hours counts: the fewest layings and the set-ups within them; or the fewest set-ups of all
    /// and the layings that hold them.
    /// </summary>
    private static BargePlanResult Choose(BargePlanRequest request, SetUpProblem whole, IReadOnlyList<SetUpCandidate> candidates, IReadOnlyList<int> pinned, SolverLimit limit, Action<PlanStep> next)
    {
        next(PlanStep.SetUpsFreely);
        Cover free = Solve(whole, candidates, [.. QuickCover.Of(whole, candidates)], pinned, Part(limit, 0.25));
        next(PlanStep.Layings);
        AnchorChoice fewest = AnchorChoice.Fewest(request, candidates, pinned, Part(limit, 0.2));
        next(PlanStep.LayingsMoved);
        AnchorChoice holding = AnchorChoice.Holding(request, candidates, free.Chosen, Part(limit, 0.1));
        AnchorChoice shifted = AnchorShift.Of(request, candidates, fewest, free.Chosen, pinned);
        next(PlanStep.SetUpsWithin);
        SetUpCandidate[] within = [.. candidates.Where(one => shifted.Holds(request.Reach, Middle(request, one)))];
        Dictionary<SetUpCandidate, int> places = new(within.Select((one, place) => KeyValuePair.Create(one, place)), ReferenceEqualityComparer.Instance);
        int[] Places(IEnumerable<int> ofAll) => [.. ofAll.Select(one => places.GetValueOrDefault(candidates[one], -1)).Where(place => place >= 0)];
        Cover inside = Solve(whole, within, Places(free.Chosen), Places(pinned), Part(limit, 0.4));
        next(PlanStep.InOrder);
        PlannedAnchor[] first = new PlanOrder(request, shifted.Lows).Of([.. inside.Chosen.Select(one => within[one])]);
        PlannedAnchor[] second = new PlanOrder(request, holding.Lows).Of([.. free.Chosen.Select(one => candidates[one])]);
        // What no plan of any anchors can beat is the bound of the free question.
        int byCount = (request.Piles.Count + request.Barge.Casings.Count - 1) / request.Barge.Casings.Count;
        int least = Math.Max(free.Bound, byCount);
        bool freely = Effort(request, second).WorkHours < Effort(request, first).WorkHours;
        PlanBounds bounds = new(
            Effort(request, freely ? second : first), Effort(request, Math.Max(1, fewest.Bound), least), byCount, freely ? least : Math.Max(inside.Bound, least));
        return new BargePlanResult(freely ? second : first, bounds, RowByRow.Of(request), [], []);
    }

    private static void Next(PlanStep step, IProgress<PlanStep>? steps, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        steps?.Report(step);
    }

    internal static SolverLimit Part(SolverLimit limit, double share) => limit with { Seconds = limit.Seconds * share };

    private static PlanEffort Effort(BargePlanRequest request, PlannedAnchor[] planned) => Effort(request, planned.Length, planned.Sum(anchor => anchor.SetUps.Count));

    internal static PlanEffort Effort(BargePlanRequest request, int anchors, int setUps)
        => new(anchors, setUps, (anchors * request.HoursPerAnchorHours) + (setUps * request.MinutesPerSetUpMinutes / 60));

    internal static SiteCoordinate Middle(BargePlanRequest request, SetUpCandidate setUp)
    {
        (double X, double Y)[] offsets = [.. request.Barge.Casings.Select(casing => SetUpCandidates.Offset(casing, setUp.HeadingDegrees))];
        return new SiteCoordinate(setUp.Reference.XMetres + offsets.Average(one => one.X), setUp.Reference.YMetres + offsets.Average(one => one.Y));
    }

    internal static Cover Solve(SetUpProblem problem, IReadOnlyList<SetUpCandidate> candidates, IReadOnlyCollection<int> hint, IReadOnlyCollection<int> pinned, SolverLimit limit)
        => CoverSolver.Solve(problem.Piles.Count, [.. candidates.Select(candidate => candidate.Builds.Select(over => over.Pile).ToArray())], hint, pinned, limit);
}
