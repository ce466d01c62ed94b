using Shouldly;
using SiteProgress.Bench.Deviations;
using SiteProgress.Core.Bias;
using Xunit;

namespace SiteProgress.Core.Tests.Bias;

/// <summary>
/// How well a shift of the grid can be told from an offset of the barge. By hand, with independent errors of standard deviation s in N
/// positions, half of them on each of two headings an angle a apart: standard error s / sqrt(N) / sin(a / 2).
/// </summary>
public sealed class CauseComparisonTests
{
    [Theory]
    [InlineData(180, 0.0042)]
    [InlineData(10, 0.0484)]
    public void The_headings_decide_how_well_the_grid_is_known(double apart, double standardError)
    {
        // 60 set-ups a heading, three casings each, errors of 0.08 m: 0.08 / sqrt(360) = 4.2 mm, and 48.4 mm at 10 degrees.
        double byHand = 0.08 / Math.Sqrt(360) / Math.Sin(apart / 2 * Math.PI / 180);
        byHand.ShouldBe(standardError, 1e-4);
        CauseColumn[] columns = [new(Effect.East, -1, null), new(Effect.North, -1, null), new(Effect.Forward, 0, null), new(Effect.Starboard, 0, null)];
        ReviewData data = ReviewData.Of(Piles(apart));
        int[] all = Enumerable.Range(0, data.SetUps.Length).ToArray();

        Fit fit = new CauseComparison(data, new CauseColumns(data, StudyPiles.Site), columns, all, 1).FitOf([0, 1, 2, 3]);

        fit.IsDetermined.ShouldBeTrue();
        fit.StandardError(0).ShouldBe(byHand, byHand * 0.15);
        fit.StandardError(1).ShouldBe(byHand, byHand * 0.15);
    }

    [Fact]
    public void On_one_heading_they_cannot_be_told_apart_at_all()
    {
        CauseColumn[] columns = [new(Effect.East, -1, null), new(Effect.North, -1, null), new(Effect.Forward, 0, null), new(Effect.Starboard, 0, null)];
        ReviewData data = ReviewData.Of(Piles(0));
        int[] all = Enumerable.Range(0, data.SetUps.Length).ToArray();

        Fit fit = new CauseComparison(data, new CauseColumns(data, StudyPiles.Site), columns, all, 1).FitOf([0, 1, 2, 3]);

        fit.IsDetermined.ShouldBeFalse();
        fit.Rank.ShouldBe(2);
    }

    private static BiasPile[] Piles(double apart)
    {
        Random random = new(20261125);
        double Error() => 0.08 * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
        return Enumerable.Range(0, 360).Select(index =>
        {
            double heading = 40 + (index / 3 % 2 * apart);
            (double east, double north) = (Error(), Error());
            return new BiasPile($"P{index}", "Tern", 1 + (index % 3), $"S{index / 3}", "A", null, null, heading, index, index % 7, east, north, east, north, new(0.15));
        }).ToArray();
    }
}
