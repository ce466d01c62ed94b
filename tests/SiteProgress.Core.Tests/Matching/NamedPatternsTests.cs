using Shouldly;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using Xunit;

namespace SiteProgress.Core.Tests.Matching;

/// <summary>What disagrees is named as what it is, and nothing of it is adopted; the solver against every possible assignment.</summary>
public sealed class NamedPatternsTests
{
    private static readonly PlannedPile[] Row = Enumerable.Range(0, 10).Select(index => Invented.Planned($"A-{index:0000}", 500 + (index * 2.1), 0)).ToArray();

    [Fact]
    public void Two_records_at_each_others_piles_are_swapped()
        => Outcomes((1, 2), (2, 1), (3, 3)).ShouldBe([MatchOutcome.SwappedNumbers, MatchOutcome.SwappedNumbers, MatchOutcome.Matched]);

    [Fact]
    public void Numbers_one_pile_on_are_shifted_along_the_row()
        => Outcomes((1, 2), (2, 3), (3, 4), (6, 6), (7, 7)).Take(3).ShouldAllBe(outcome => outcome == MatchOutcome.ShiftedAlongRow);

    [Fact]
    public void A_batch_that_is_off_by_one_vector_is_shifted_whole()
        => Outcomes((0, 1), (1, 2), (2, 3), (3, 4), (4, 5), (5, 6)).ShouldAllBe(outcome => outcome == MatchOutcome.BatchShifted);

    [Theory]
    [InlineData(4.2, 0.4, MatchOutcome.ShiftedAlongRow)] // 0.8 m apart: one step in a pattern of 4.2 m
    [InlineData(1.0, 0.2, MatchOutcome.NumberContradictsPosition)] // 0.4 m apart: two steps in a pattern of 1.0 m
    public void What_is_the_same_step_is_told_by_the_spacing(double spacingMetres, double scatterMetres, MatchOutcome expected)
    {
        PlannedPile[] row = Enumerable.Range(0, 10).Select(index => Invented.Planned($"A-{index:0000}", 500 + (index * spacingMetres), 0)).ToArray();
        LocatedInstallation[] records = Enumerable.Range(1, 4).Select(said => Invented.Located(
            Invented.Built($"A-{said:0000}", 500 + ((said + 1) * spacingMetres) + (said % 2 == 0 ? scatterMetres : -scatterMetres), 0) with { RecordId = $"R{said}" },
            100 + said)).ToArray();
        SiteSettings settings = Invented.Settings with { Zones = [Invented.ZoneA with { SpacingMetres = spacingMetres, SecondSpacingMetres = null }] };
        NumberAndPosition.Settle(records, new DesignIndex(row, settings)).Select(match => match.Outcome).ShouldAllBe(outcome => outcome == expected);
    }

    [Fact]
    public void A_pile_that_an_agreeing_record_holds_is_claimed_twice()
        => Outcomes((2, 2), (5, 2)).ShouldBe([MatchOutcome.Matched, MatchOutcome.ClaimedTwice]);

    [Fact]
    public void Exchanged_coordinates_are_named()
        => Settle([Invented.Located(Invented.Built("A-0003", 0.05, 506.3))])[0].Outcome.ShouldBe(MatchOutcome.AxesExchanged);

    [Fact]
    public void The_solver_costs_no_more_than_the_best_of_all_assignments()
    {
        Random chance = new(20260302);
        for (int round = 0; round < 3000; round++)
        {
            int rows = chance.Next(1, 5), columns = chance.Next(1, 6);
            double[,] costs = new double[rows, columns];
            for (int row = 0; row < rows; row++)
            {
                for (int column = 0; column < columns; column++) costs[row, column] = chance.NextDouble() < 0.3 ? double.PositiveInfinity : 2 + chance.NextDouble();
            }

            Choice[][] choices = Enumerable.Range(0, rows)
                .Select(row => Enumerable.Range(0, columns).Where(column => double.IsFinite(costs[row, column])).Select(column => new Choice(column, costs[row, column])).ToArray()).ToArray();
            int[] found = Assignment.Solve(columns, choices, 3);
            found.Where(column => column >= 0).ShouldBeUnique();
            found.Select((column, row) => column < 0 ? 3 : costs[row, column]).Sum().ShouldBe(Best(costs, 0, 0), 1e-9);
        }
    }

    private static double Best(double[,] costs, int row, int taken)
    {
        if (row == costs.GetLength(0)) return 0;
        double least = 3 + Best(costs, row + 1, taken);
        for (int column = 0; column < costs.GetLength(1); column++)
        {
            if ((taken >> column & 1) == 0) least = Math.Min(least, costs[row, column] + Best(costs, row + 1, taken | 1 << column));
        }

        return least;
    }

    private static MatchOutcome[] Outcomes(params (int Said, int At)[] records) => Settle(records.Select((one, index) => Invented.Located(
        Invented.Built($"A-{one.Said:0000}", 500 + (one.At * 2.1) + 0.03, 0.02) with { RecordId = $"R{index}" }, 100 + index)).ToArray()).Select(match => match.Outcome).ToArray();

    private static IReadOnlyList<InstallationMatch> Settle(LocatedInstallation[] installations)
        => NumberAndPosition.Settle(installations, new DesignIndex(Row, Invented.Settings));
}
