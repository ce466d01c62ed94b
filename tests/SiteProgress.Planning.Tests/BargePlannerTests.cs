using Shouldly;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;
using SiteProgress.Core.SetUps;
using Xunit;

namespace SiteProgress.Planning.Tests;

/// <summary>Small plans against every choice tried out, and what a plan has to keep. Piles stand 2.1 m apart, three casings in line abeam.</summary>
public sealed class BargePlannerTests
{
    private static readonly SolverLimit Steps = new(60, Steps: 2);

    [Fact]
    public void Set_ups_of_small_remainders_are_the_fewest_found_by_trying_everything()
    {
        Random chance = new(5);
        for (int round = 0; round < 15; round++)
        {
            (int, int)[] piles = [.. Enumerable.Range(0, 13).Select(_ => (chance.Next(6), chance.Next(4))).Distinct()];
            BargePlanRequest request = Request(piles, 1, [0, 90], 500);
            SetUpProblem problem = new(request.Piles, request.Barge.Casings, request.HeadingsDegrees, request.FitMetres);

            BargePlanResult plan = Made(request);

            int fewest = Fewest([.. SetUpCandidates.Of(problem).Select(one => one.Builds.Select(over => over.Pile).ToArray())], piles.Length);
            plan.SetUpCount.ShouldBe(fewest);
            plan.Bounds.Least.SetUps.ShouldBe(fewest);
            plan.Bounds.WithinAnchors.ShouldBe(fewest);
            plan.Bounds.ByCount.ShouldBe((piles.Length + 2) / 3);
            plan.Anchors.ShouldHaveSingleItem();
        }
    }

    [Fact]
    public void Layings_of_the_anchors_are_the_fewest_before_set_ups_count()
    {
        // Two rows far apart and a reach of one row: two layings; three rows within one reach: one.
        Made(Request(Grid(9, 0, 10), 3, [0], 30, 3)).Anchors.Count.ShouldBe(2);
        Made(Request(Grid(9, 0, 1, 2), 3, [0], 30, 5)).Anchors.Count.ShouldBe(1);
    }

    [Fact]
    public void Every_pile_is_built_once_and_numbers_run_through()
    {
        BargePlanResult plan = Made(Request(Grid(20, 0, 1, 2, 3, 5), 3, [0, 90], 20, 6));

        string[] built = [.. plan.Anchors.SelectMany(anchor => anchor.SetUps).SelectMany(setUp => setUp.Builds).Select(one => one.Pile)];
        built.Distinct().Count().ShouldBe(100);
        built.Length.ShouldBe(100);
        plan.Anchors.SelectMany(anchor => anchor.SetUps).Select(setUp => setUp.Number).ShouldBe(Enumerable.Range(1, plan.SetUpCount));
        foreach (PlannedAnchor anchor in plan.Anchors)
            anchor.SetUps.ShouldAllBe(setUp => AnchorChoice.Inside(anchor.Low, new AnchorReach(20, 6), setUp.Casings));
    }

    [Fact]
    public void A_whole_field_takes_a_third_of_its_piles_and_saves_nothing_against_row_by_row()
    {
        BargePlanResult plan = Made(Request(Grid(18, 0, 1, 2, 3), 3, [0], 40, 8));

        plan.SetUpCount.ShouldBe(24);
        plan.RowByRow.SetUps.ShouldBe(24);
        plan.Bounds.GapRatio.ShouldBe(0);
        plan.Bounds.Plan.WorkHours.ShouldBe((plan.Anchors.Count * 5) + (24 * 80 / 60.0), 1e-9);
    }

    [Fact]
    public void It_begins_where_the_barge_lies()
    {
        BargePlanRequest request = Request(Grid(40, 0), 1, [0], 10, 3) with { Lies = new SiteCoordinate(90, 0) };

        BargePlanResult plan = Made(request);

        plan.Anchors[0].SetUps[0].Casings.XMetres.ShouldBeGreaterThan(plan.Anchors[^1].SetUps[^1].Casings.XMetres);
    }

    [Fact]
    public void Anchors_advance_as_asked()
    {
        BargePlanResult plan = Made(Request(Grid(40, 0), 1, [0], 10, 3) with { Lies = new SiteCoordinate(0, 0), DirectionDegrees = 270 });

        plan.Anchors.Select(anchor => anchor.Low.XMetres).ShouldBeInOrder(SortDirection.Descending);
    }

    [Fact]
    public void The_hull_keeps_away_from_a_structure_and_what_cannot_be_reached_is_named()
    {
        // On heading 0 the hull lies 25 m short of the casings; a wall stands there below the first piles, and heading 180 is free.
        SiteCoordinate[] wall = [new(-40, -40), new(12, -40), new(12, -20), new(-40, -20)];
        BargePlanRequest request = Request(Grid(9, 0), 1, [0], 200) with { Structures = [wall], ClearanceMetres = 5 };

        BargePlanResult onlyNorth = Made(request);
        BargePlanResult both = Made(request with { HeadingsDegrees = [0, 180] });

        onlyNorth.Unreached.ShouldNotBeEmpty();
        both.Unreached.ShouldBeEmpty();
        both.Anchors.SelectMany(anchor => anchor.SetUps).ShouldContain(setUp => setUp.HeadingDegrees == 180);
    }

    [Fact]
    public void A_fixed_set_up_is_kept_and_one_that_cannot_be_is_told()
    {
        BargePlanRequest request = Request(Grid(7, 0), 1, [0], 200) with { Pinned = [["0-2", "0-3", "0-4"], ["0-0", "0-6"]] };

        BargePlanResult plan = Made(request);

        plan.Anchors.SelectMany(anchor => anchor.SetUps).ShouldContain(setUp => setUp.Builds.Select(one => one.Pile).Order().SequenceEqual(new[] { "0-2", "0-3", "0-4" }));
        plan.SetUpCount.ShouldBe(3);
        plan.Problems.ShouldHaveSingleItem().ShouldStartWith("The fixed set-up 0-0, 0-6 is built from no allowed position");
    }

    [Fact]
    public void The_linear_bound_lies_between_the_count_and_the_fewest()
    {
        // Three piles in a triangle of pairs: halves of each set would do with one and a half, whole sets need two.
        CoverSolver.LinearBound(3, [[0, 1], [1, 2], [0, 2]]).ShouldBe(2);
        CoverSolver.LinearBound(4, [[0], [1], [2], [3]]).ShouldBe(4);
        CoverSolver.LinearBound(5, [[0, 1, 2], [2, 3, 4], [0, 4]]).ShouldBe(2);
    }

    [Fact]
    public void Covers_of_small_questions_are_the_fewest_found_by_trying_everything_forced_sets_among_them()
    {
        Random chance = new(11);
        for (int round = 0; round < 40; round++)
        {
            int elements = chance.Next(3, 13);
            int[][] sets = [.. Enumerable.Range(0, 14).Select(_ => Enumerable.Range(0, chance.Next(1, 4)).Select(_ => chance.Next(elements)).Distinct().ToArray()),
                .. Enumerable.Range(0, elements).Select(element => new[] { element })];
            int forced = chance.Next(sets.Length);

            Cover free = CoverSolver.Solve(elements, sets, [], [], Steps);
            Cover with = CoverSolver.Solve(elements, sets, [0, 1], [forced], Steps);

            free.Chosen.SelectMany(one => sets[one]).Distinct().Count().ShouldBe(elements);
            free.Chosen.Count.ShouldBe(Fewest(sets, elements));
            free.Bound.ShouldBe(free.Chosen.Count);
            with.Chosen.ShouldContain(forced);
            with.Chosen.SelectMany(one => sets[one]).Distinct().Count().ShouldBe(elements);
            with.Bound.ShouldBe(with.Chosen.Count);
            with.Chosen.Count.ShouldBe(1 + FewestBeside(sets, elements, forced));
        }
    }

    [Fact]
    public void Layings_are_the_fewest_found_by_trying_every_corner()
    {
        Random chance = new(23);
        for (int round = 0; round < 15; round++)
        {
            (int, int)[] piles = [.. Enumerable.Range(0, 12).Select(_ => (chance.Next(14), chance.Next(5))).Distinct()];
            BargePlanRequest request = Request(piles, 1, [0], 6.3, 4.2);
            SetUpCandidate[] candidates = [.. SetUpCandidates.Of(new(request.Piles, request.Barge.Casings, request.HeadingsDegrees, request.FitMetres))];
            SiteCoordinate[] middles = [.. candidates.Select(one => BargePlanner.Middle(request, one))];
            int[][] reaches = [.. middles.SelectMany(a => middles.Select(b => new SiteCoordinate(a.XMetres, b.YMetres)))
                .Select(low => Enumerable.Range(0, middles.Length).Where(one => AnchorChoice.Inside(low, request.Reach, middles[one])).SelectMany(one => candidates[one].Builds).Select(over => over.Pile).Distinct().ToArray())];

            AnchorChoice chosen = AnchorChoice.Fewest(request, candidates, [], Steps);

            chosen.Lows.Count.ShouldBe(Fewest(reaches, piles.Length));
            chosen.Bound.ShouldBe(chosen.Lows.Count);
            AnchorChoice moved = AnchorShift.Of(request, candidates, chosen, [.. Enumerable.Range(0, candidates.Length)], []);
            moved.Lows.Count.ShouldBe(chosen.Lows.Count);
            Enumerable.Range(0, candidates.Length).Where(one => moved.Holds(request.Reach, middles[one])).SelectMany(one => candidates[one].Builds).Select(over => over.Pile)
                .Distinct().Count().ShouldBe(piles.Length);
        }
    }

    [Fact]
    public void Spacings_and_changes_of_small_plans_take_the_fewest_hours_found_by_trying_every_way()
    {
        Random chance = new(29);
        HashSet<int> ways = [];
        for (int round = 0; round < 12; round++)
        {
            // Two zones far apart, each with rows of piles 2.1 m or 4.2 m apart; casings stand 2.1 m apart and may be set to 4.2 m.
            (int Zone, int Column)[] piles = [.. Enumerable.Range(0, 2).SelectMany(zone => Enumerable.Range(0, 12).Where(_ => chance.NextDouble() < 0.9).Select(place => (zone, place * (1 + ((round + zone + (round / 4)) % 2)))))];
            BargePlanRequest request = Request([], 1, [0], 100, 40) with
            {
                Piles = [.. piles.Select(one => new OpenPile($"{one.Zone}-{one.Column}", new SiteCoordinate((one.Zone * 300) + (one.Column * 2.1), 0), $"{one.Zone}"))],
                Spacings = new([2.1, 4.2], 0.5 + (round % 5)),
            };

            BargePlanResult plan = Made(request);

            double[] all = [.. Enumerable.Range(0, 4).Select(way =>
            {
                int[] steps = [1 + (way & 1), 1 + (way >> 1)];
                double hours = Enumerable.Range(0, 2).Sum(zone => piles.Any(one => one.Zone == zone) ? 5 + (Row([.. piles.Where(one => one.Zone == zone).Select(one => one.Column)], steps[zone]) * 80 / 60.0) : 0);
                return hours + (steps.Contains(2) ? request.Spacings!.HoursPerChangeHours : 0);
            })];
            plan.Bounds.Plan.WorkHours.ShouldBe(all.Min(), 1e-9);
            plan.Anchors.SelectMany(anchor => anchor.SetUps).SelectMany(setUp => setUp.Builds).Select(one => one.Pile).Order().ShouldBe(request.Piles.Select(pile => pile.Number).Order());
            plan.Stretches!.Count(one => one.Changes).ShouldBeLessThanOrEqualTo(1);
            ways.Add(plan.Stretches!.Count + (plan.Stretches![^1].Changes ? 10 : 0));
        }

        // Both spacings, and a change, come to be chosen and not chosen.
        ways.Count.ShouldBeGreaterThan(1);

        // Fewest positions of three casings a step apart over a row of places: every choice tried.
        static int Row(int[] columns, int step)
        {
            int[][] sets = [.. columns.SelectMany(column => Enumerable.Range(0, 3).Select(casing => column - (casing * step)))
                .Select(first => Enumerable.Range(0, columns.Length).Where(place => (columns[place] - first) % step == 0 && (columns[place] - first) / step is >= 0 and <= 2).ToArray())];
            return Fewest(sets, columns.Length);
        }
    }

    [Fact]
    public void Casings_that_stand_unevenly_keep_their_places_and_the_plan_says_so()
    {
        BargePlanRequest request = Request(Grid(6, 0), 1, [0], 100);
        Barge uneven = request.Barge with { Casings = [request.Barge.Casings[0], request.Barge.Casings[1], request.Barge.Casings[2] with { StarboardMetres = 3 }] };

        Made(request with { Barge = uneven, Spacings = new([2.1, 4.2], 8) }).Problems.ShouldHaveSingleItem().ShouldContain("no evenly divided line");
    }

    [Fact]
    public void Layings_and_set_ups_of_small_remainders_together_take_the_fewest_hours_found_by_trying_every_choice()
    {
        Random chance = new(37);
        int depth = 0;
        for (int round = 0; round < 10; round++)
        {
            (int, int)[] piles = [.. Enumerable.Range(0, 9).Select(_ => (chance.Next(12), chance.Next(4))).Distinct()];
            BargePlanRequest request = Request(piles, 1, [0], 6.3, 2.1) with { HoursPerAnchorHours = 1 + (round % 4) };
            SetUpPlaces places = SetUpPlaces.Of(request, SetUpCandidates.Every(new(request.Piles, request.Barge.Casings, request.HeadingsDegrees, request.FitMetres)));
            SiteCoordinate[] middles = [.. places.Middles.SelectMany(one => one)];
            // What each corner's reach can build, as masks of piles; corners that hold the same are one.
            int[][] reaches = [.. middles.SelectMany(a => middles.Select(b => new SiteCoordinate(a.XMetres, b.YMetres)))
                .Select(low => Enumerable.Range(0, places.Sets.Count).Where(set => places.Held(set, [low], request.Reach) is not null).Order().ToArray()).DistinctBy(held => string.Join(' ', held))];
            reaches = [.. reaches.Where(one => !reaches.Any(other => other.Length > one.Length && one.All(other.Contains)))];

            BargePlanResult plan = Made(request);

            plan.Bounds.Plan.WorkHours.ShouldBe(FewestHours(reaches, [], 0), 1e-9);
            plan.Bounds.Least.WorkHours.ShouldBeLessThanOrEqualTo(plan.Bounds.Plan.WorkHours + 1e-9);
            plan.Bounds.Least.Anchors.ShouldBeLessThanOrEqualTo(plan.Anchors.Count);

            // Every choice of layings in turn; of each the fewest set-ups by every choice of them.
            double FewestHours(int[][] reaches, int[] held, int from)
            {
                double best = held.SelectMany(set => places.Sets[set]).Distinct().Count() == request.Piles.Count
                    ? Fewest([.. held.Select(set => places.Sets[set])], request.Piles.Count) * request.MinutesPerSetUpMinutes / 60 : double.PositiveInfinity;
                for (int next = from; next < reaches.Length; next++)
                {
                    // More layings than four cost more than any set-ups they save here.
                    if (held.Length > 0 && depth == 4) break;
                    depth++;
                    best = Math.Min(best, request.HoursPerAnchorHours + FewestHours(reaches, [.. held.Union(reaches[next])], next + 1));
                    depth--;
                }

                return best;
            }
        }
    }

    [Fact]
    public void Nothing_left_is_an_empty_plan() => Made(Request([], 1, [0], 100)).Anchors.ShouldBeEmpty();

    [Fact]
    public void Planning_tells_its_steps_in_order_and_ends_at_the_next_one_when_it_is_stopped()
    {
        BargePlanRequest request = Request(Grid(9, 0, 1), 1, [0], 200);
        Told all = new(null, PlanStep.InOrder);
        BargePlanner.Plan(request, Steps, all, TestContext.Current.CancellationToken);
        all.Steps.ShouldBe(Enum.GetValues<PlanStep>());

        using CancellationTokenSource stop = new();
        Told some = new(stop, PlanStep.Layings);
        Should.Throw<OperationCanceledException>(() => BargePlanner.Plan(request, Steps, some, stop.Token));
        some.Steps[^1].ShouldBe(PlanStep.Layings);
    }

    /// <summary>Keeps the steps, and stops the work at one of them.</summary>
    private sealed class Told(CancellationTokenSource? stop, PlanStep at) : IProgress<PlanStep>
    {
        public List<PlanStep> Steps { get; } = [];

        public void Report(PlanStep value)
        {
            Steps.Add(value);
            if (value == at) stop?.Cancel();
        }
    }

    private static BargePlanResult Made(BargePlanRequest request) => BargePlanner.Plan(request, Steps, null, TestContext.Current.CancellationToken);

    private static int FewestBeside(int[][] sets, int elements, int forced)
    {
        int[] left = [.. Enumerable.Range(0, elements).Except(sets[forced])];
        return left.Length == 0 ? 0 : Fewest([.. sets.Select(set => set.Where(left.Contains).Select(element => Array.IndexOf(left, element)).ToArray()).Where(set => set.Length > 0)], left.Length);
    }

    private static int Fewest(int[][] candidates, int piles)
    {
        int[] sets = Array.ConvertAll(candidates, one => one.Aggregate(0, (set, pile) => set | (1 << pile)));
        Dictionary<int, int> known = new() { [(1 << piles) - 1] = 0 };
        return From(0);

        int From(int built)
        {
            if (known.TryGetValue(built, out int answer)) return answer;
            int first = Enumerable.Range(0, piles).First(pile => (built & (1 << pile)) == 0);
            return known[built] = 1 + sets.Where(set => (set & (1 << first)) != 0).Min(set => From(built | set));
        }
    }

    private static (int, int)[] Grid(int columns, params int[] rows) => [.. rows.SelectMany(row => Enumerable.Range(0, columns).Select(column => (column, row)))];

    private static BargePlanRequest Request((int Column, int Row)[] piles, int step, double[] headings, double along, double across = 500) => new(
        new Barge("Tern", [.. Enumerable.Range(1, 3).Select(number => new Casing(number, 1.2, 1.3, 25, (number - 2) * step * 2.1))], new Hull(40, 20)),
        [.. piles.Select(pile => new OpenPile($"{pile.Row}-{pile.Column}", new SiteCoordinate(pile.Column * 2.1, pile.Row * 2.1)))],
        headings, 0.05, new AnchorReach(along, across), null, 5, 80, [], 10, [], null);
}
