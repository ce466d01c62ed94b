using Shouldly;
using Xunit;

namespace SiteProgress.Bench.Tests;

public sealed class RoundsTests
{
    [Fact]
    public async Task Contenders_take_turns_and_the_first_turn_of_each_does_not_count()
    {
        var order = new List<string>();
        var results = await Rounds.RunAsync(["ours", "peer"], name =>
        {
            order.Add(name);
            return Task.FromResult(order.Count);
        });

        order.ShouldBe(Enumerable.Repeat<string[]>(["ours", "peer"], 6).SelectMany(turn => turn));
        results["ours"].ShouldBe([3, 5, 7, 9, 11]);
        results["peer"].ShouldBe([4, 6, 8, 10, 12]);
    }

    [Theory]
    [InlineData(new[] { 3.0, 1.0, 2.0 }, 2.0)]
    [InlineData(new[] { 9.0, 1.0, 2.0, 100.0, 2.5 }, 2.5)]
    [InlineData(new[] { 4.0, 1.0, 2.0, 3.0 }, 2.5)]
    [InlineData(new[] { 7.0 }, 7.0)]
    public void The_median_is_the_middle_value_whatever_the_order(double[] values, double median) =>
        Rounds.Median(values).ShouldBe(median);

    [Fact]
    public void There_is_no_median_of_nothing() => Should.Throw<ArgumentException>(() => Rounds.Median([]));
}
