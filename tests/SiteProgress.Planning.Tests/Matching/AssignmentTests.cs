using Shouldly;
using SiteProgress.Bench.Matching;
using SiteProgress.Core.Matching;
using Xunit;

namespace SiteProgress.Planning.Tests.Matching;

/// <summary>The assignment of records to piles against OR-Tools on made problems: the same least sum, to the unit.</summary>
public sealed class AssignmentTests
{
    [Fact]
    public void Three_thousand_small_problems_cost_what_the_independent_solver_finds()
    {
        Random chance = new(20260401);
        for (int round = 0; round < 3000; round++)
        {
            (int columns, Choice[][] rows) = AssignmentCases.Small(chance);
            AssignmentCases.Sum(Assignment.Solve(columns, rows, AssignmentCases.CostOfNone), rows)
                .ShouldBe(OrToolsAssignment.Sum(columns, rows), $"problem {round}");
        }
    }

    [Fact]
    public void Both_solvers_of_the_peer_agree()
    {
        Random chance = new(20260402);
        for (int round = 0; round < 300; round++)
        {
            (int columns, Choice[][] rows) = AssignmentCases.Small(chance);
            OrToolsAssignment.SumByFlow(columns, rows).ShouldBe(OrToolsAssignment.Sum(columns, rows), $"problem {round}");
        }
    }

    [Theory]
    [InlineData("chain")]
    [InlineData("tied chain")]
    [InlineData("field")]
    [InlineData("stars")]
    public void Large_groups_of_every_shape_cost_what_the_independent_solver_finds(string shape)
    {
        Random chance = new(20260403);
        (int columns, Choice[][] rows) = shape switch
        {
            "chain" => AssignmentCases.Chain(3000, chance),
            "tied chain" => AssignmentCases.TiedChain(3000, chance),
            "field" => AssignmentCases.Field(3000, chance),
            _ => AssignmentCases.Stars(3000, chance),
        };
        AssignmentCases.Sum(Assignment.Solve(columns, rows, AssignmentCases.CostOfNone), rows).ShouldBe(OrToolsAssignment.Sum(columns, rows));
    }
}
