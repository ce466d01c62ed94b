using System.Diagnostics;
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
        IReadOnlyList<SetUpCandidate> every = SetUpCandidates.Every(whole, keepings.Allows), candidates = SetUpCandidates.Largest(every);
        HashSet<int> reached = [.. candidates.SelectMany(candidate => candidate.Builds).Select(over => over.Pile)];
        string[] unreached = [.. request.Piles.Where((_, pile) => !reached.Contains(pile)).Select(pile => pile.Number)];
        if (unreached.Length > 0)
        {
            BargePlanResult rest = AsItStands(request with { Piles = [.. request.Piles.Where((_, pile) => reached.Contains(pile))] }, limit, steps, cancellation);
            return rest with { Unreached = unreached };
        }

        if (request.Piles.Count == 0) return new BargePlanResult([], new PlanBounds(default, default, 0, 0), default, [], []);
        (IReadOnlyList<int> pinned, string[] problems) = keepings.Pinned(candidates);
        return Choose(request, whole, candidates, SetUpPlaces.Of(request, every), pinned, limit, step => Next(step, steps, cancellation)) with { Problems = problems };
    }

    /// <summary>
    /// Two ways to begin, of which the one of fewer hours counts: the fewest layings and the set-ups within them; or the fewest set-ups of
    /// all and the layings that hold them. Then both are bettered together.
    /// </summary>
    private static BargePlanResult Choose(
        BargePlanRequest request, SetUpProblem whole, IReadOnlyList<SetUpCandidate> candidates, SetUpPlaces places, IReadOnlyList<int> pinned, SolverLimit limit, Action<PlanStep> next)
    {
        long begin = Stopwatch.GetTimestamp();
        next(PlanStep.SetUpsFreely);
        Cover free = Solve(whole, candidates, [.. QuickCover.Of(whole, candidates)], pinned, Part(limit, 0.15));
        int[] wanted = [.. free.Chosen.Select(one => places.SetOf(candidates[one]))], forced = [.. pinned.Select(one => places.SetOf(candidates[one])).Distinct()];
        next(PlanStep.Layings);
        // The set-ups that build most decide where to begin; what those with casings raised can save is found out afterwards.
        AnchorChoice fewest = AnchorChoice.Fewest(request, candidates, pinned, Part(limit, 0.12));
        int layings = LayingsBound.Of(request, places.All, Part(limit, 0.06));
        next(PlanStep.LayingsMoved);
        AnchorChoice holding = AnchorChoice.Holding(request, candidates, free.Chosen, Part(limit, 0.05));
        AnchorChoice shifted = AnchorShift.Of(request, candidates, fewest, free.Chosen, pinned);
        next(PlanStep.SetUpsWithin);
        Cover inside = Within(request, places, shifted.Lows, wanted, forced, Part(limit, 0.08));
        bool freely = Effort(request, holding.Lows.Count, wanted.Length).WorkHours < Effort(request, shifted.Lows.Count, inside.Chosen.Count).WorkHours;
        next(PlanStep.Together);
        (IReadOnlyList<SiteCoordinate> lows, IReadOnlyList<int> sets) = freely ? (holding.Lows, wanted) : (shifted.Lows, inside.Chosen);
        (lows, sets) = AnchorSearch.Better(request, places, forced, lows, sets, Until(0.55));
        Cover last = Within(request, places, lows, sets, forced, Until(0.98));
        next(PlanStep.InOrder);
        PlannedAnchor[] planned = new PlanOrder(request, lows).Of([.. last.Chosen.Select(set => places.Held(set, lows, request.Reach)!)]);
        // What no plan of any anchors can beat is the bound of the free question.
        int byCount = (request.Piles.Count + request.Barge.Casings.Count - 1) / request.Barge.Casings.Count;
        int least = Math.Max(free.Bound, byCount);
        PlanBounds bounds = new(Effort(request, planned), Effort(request, Math.Max(1, layings), least), byCount, Math.Max(last.Bound, least));
        return new BargePlanResult(planned, bounds, RowByRow.Of(request), [], []);

        // What is left of the time until a share of it is over.
        SolverLimit Until(double share) => limit with { Seconds = Math.Max(0, (limit.Seconds * share) - Stopwatch.GetElapsedTime(begin).TotalSeconds) };
    }

    /// <summary>The fewest set-ups within layings, as places of their sets.</summary>
    private static Cover Within(BargePlanRequest request, SetUpPlaces places, IReadOnlyList<SiteCoordinate> lows, IReadOnlyList<int> hint, int[] forced, SolverLimit limit)
    {
        int[] held = places.HeldBy(lows, request.Reach);
        int[] all = [.. held.Union(forced)];
        Dictionary<int, int> place = all.Select((set, index) => KeyValuePair.Create(set, index)).ToDictionary();
        Cover cover = CoverSolver.Solve(request.Piles.Count, [.. all.Select(set => places.Sets[set])], [.. hint.Where(place.ContainsKey).Select(set => place[set])], [.. forced.Select(set => place[set])], limit);
        return new Cover([.. cover.Chosen.Select(one => all[one])], cover.Bound);
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
