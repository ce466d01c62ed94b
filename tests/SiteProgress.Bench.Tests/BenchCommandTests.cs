using Shouldly;
using Xunit;

namespace SiteProgress.Bench.Tests;

public sealed class BenchCommandTests : IDisposable
{
    private readonly List<string> run = [];
    private readonly StringWriter output = new(), problems = new();

    [Fact]
    public async Task The_list_names_every_measurement_and_runs_none()
    {
        (await Bench("--list")).ShouldBe(0);
        run.ShouldBeEmpty();
        output.ToString().ShouldContain("fast");
        output.ToString().ShouldContain("slow");
    }

    [Fact]
    public async Task Without_a_name_all_run_and_a_goal_that_was_missed_shows_in_the_status()
    {
        (await Bench()).ShouldBe(1);
        run.ShouldBe(["fast", "slow"]);
        output.ToString().ShouldContain("fast ratio 3.00 goal 2 met");
        output.ToString().ShouldContain("slow ratio 1.99 goal 2 short");
    }

    [Fact]
    public async Task A_name_chooses_its_measurement_alone()
    {
        (await Bench("fast")).ShouldBe(0);
        run.ShouldBe(["fast"]);
    }

    [Fact]
    public async Task An_unknown_name_is_told_before_anything_runs()
    {
        (await Bench("fast", "fats")).ShouldBe(2);
        run.ShouldBeEmpty();
        problems.ToString().ShouldContain("'fats'");
    }

    [Theory]
    [InlineData(1.999, 2, "x ratio 1.99 goal 2 short")]
    [InlineData(2.0, 2, "x ratio 2.00 goal 2 met")]
    [InlineData(double.NaN, 2, "x ratio NaN goal 2 short")]
    [InlineData(12.345, 2.5, "x ratio 12.34 goal 2.5 met")]
    public void A_closing_line_never_shows_a_ratio_that_contradicts_its_verdict(double ratio, double goal, string line) =>
        new Outcome("x", ratio, goal).ClosingLine.ShouldBe(line);

    public void Dispose()
    {
        output.Dispose();
        problems.Dispose();
    }

    private Task<int> Bench(params string[] words) =>
        BenchCommand.RunAsync(words, [Measurement("fast", 3), Measurement("slow", 1.9999)], output, problems);

    private Measurement Measurement(string name, double ratio) => new(name, $"what {name} times", _ =>
    {
        run.Add(name);
        return Task.FromResult<IReadOnlyList<Outcome>>([new(name, ratio, 2)]);
    });
}
