using Shouldly;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;
using SiteProgress.Core.SetUps;
using Xunit;

namespace SiteProgress.Core.Tests.SetUps;

/// <summary>Piles stand 2.1 m apart; three casings in line abeam, so many piles apart. Bounds: n piles need at least n / 3 set-ups, rounded up.</summary>
public sealed class QuickCoverTests
{
    [Theory]
    [InlineData(9, 3, 3)]
    [InlineData(9, 1, 3)]
    [InlineData(18, 3, 6)]
    [InlineData(18, 2, 6)]
    // Ten piles, casings three apart: 0 3 6, 1 4 7, 2 5 8 and the tenth alone.
    [InlineData(10, 3, 4)]
    public void A_whole_row_takes_as_many_as_its_blocks(int piles, int step, int setUps) => Count(Row(piles), step, 0).ShouldBe(setUps);

    [Fact]
    public void A_set_up_names_the_casings_that_are_lowered_and_their_places()
    {
        SetUpProblem problem = Problem([(0, 0), (3, 0)], 3, 0);

        SetUpCandidate candidate = SetUpCandidates.Of(problem).ShouldHaveSingleItem();

        candidate.Builds.Count.ShouldBe(2);
        foreach (CasingOverPile over in candidate.Builds)
        {
            (double x, double y) = SetUpCandidates.Offset(problem.Casings.Single(one => one.Number == over.Casing), candidate.HeadingDegrees);
            (candidate.Reference.XMetres + x).ShouldBe(problem.Piles[over.Pile].Position.XMetres, 1e-9);
            (candidate.Reference.YMetres + y).ShouldBe(problem.Piles[over.Pile].Position.YMetres, 1e-9);
        }
    }

    [Fact]
    public void A_column_is_built_along_itself_once_that_heading_is_allowed()
    {
        (int, int)[] column = [.. Enumerable.Range(0, 9).Select(row => (0, row))];

        Count(column, 3, 0).ShouldBe(9);
        Count(column, 3, 90).ShouldBe(3);
        Count(column, 3, 0, 90).ShouldBe(3);
    }

    [Fact]
    public void On_heading_ninety_starboard_points_down_the_second_axis()
    {
        (double x, double y) = SetUpCandidates.Offset(new Casing(3, 1, 1, 20, 6), 90);

        x.ShouldBe(20, 1e-9);
        y.ShouldBe(-6, 1e-9);
    }

    [Fact]
    public void Scattered_piles_are_built_within_a_tenth_of_the_fewest_found_by_trying_everything()
    {
        Random chance = new(11);
        for (int round = 0; round < 40; round++)
        {
            (int, int)[] piles = [.. Enumerable.Range(0, 12).Select(_ => (chance.Next(6), chance.Next(4))).Distinct()];
            SetUpProblem problem = Problem(piles, 1, 0, 90);
            IReadOnlyList<SetUpCandidate> candidates = SetUpCandidates.Of(problem);

            int found = QuickCover.Of(problem, candidates).Count;

            int fewest = Fewest(candidates, problem.Piles.Count);
            fewest.ShouldBeGreaterThanOrEqualTo((problem.Piles.Count + 2) / 3);
            found.ShouldBeInRange(fewest, fewest + 1);
        }
    }

    [Fact]
    public void Every_pile_is_built()
    {
        SetUpProblem problem = Problem([(0, 0), (1, 0), (5, 2), (4, 2), (7, 7)], 2, 0, 90);
        IReadOnlyList<SetUpCandidate> candidates = SetUpCandidates.Of(problem);

        QuickCover.Of(problem, candidates).SelectMany(one => candidates[one].Builds).Select(over => over.Pile).Distinct().Count().ShouldBe(5);
    }

    /// <summary>The fewest candidates that build all, by trying every choice for the first pile left.</summary>
    internal static int Fewest(IReadOnlyList<SetUpCandidate> candidates, int piles)
    {
        int[] sets = candidates.Select(one => one.Builds.Aggregate(0, (set, over) => set | (1 << over.Pile))).ToArray();
        Dictionary<int, int> known = new() { [(1 << piles) - 1] = 0 };
        return From(0);

        int From(int built)
        {
            if (known.TryGetValue(built, out int answer)) return answer;
            int first = Enumerable.Range(0, piles).First(pile => (built & (1 << pile)) == 0);
            return known[built] = 1 + sets.Where(set => (set & (1 << first)) != 0).Min(set => From(built | set));
        }
    }

    private static int Count((int Column, int Row)[] piles, int step, params double[] headings)
    {
        SetUpProblem problem = Problem(piles, step, headings);
        return QuickCover.Of(problem, SetUpCandidates.Of(problem)).Count;
    }

    private static (int, int)[] Row(int piles) => [.. Enumerable.Range(0, piles).Select(column => (column, 0))];

    private static SetUpProblem Problem((int Column, int Row)[] piles, int step, params double[] headings) => new(
        [.. piles.Select(pile => new OpenPile($"{pile.Column}-{pile.Row}", new SiteCoordinate(pile.Column * 2.1, pile.Row * 2.1)))],
        [.. Enumerable.Range(1, 3).Select(number => new Casing(number, 1.2, 1.3, 25, (number - 2) * step * 2.1))],
        headings,
        0.05);
}
