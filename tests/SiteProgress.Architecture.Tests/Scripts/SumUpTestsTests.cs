using Shouldly;
using SiteProgress.TestSupport;
using Xunit;

namespace SiteProgress.Architecture.Tests.Scripts;

/// <summary>The closing count of ./test, which is the verdict on everything else.</summary>
public sealed class SumUpTestsTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("siteprogress-sum-up-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task Reports_of_several_projects_are_added_up()
    {
        Report("A", "passed", "passed", "skipped");
        Report("B", "passed");
        await Verdict("3 passed, 0 failed, 1 skipped", status: 0, "A=0", "B=0");
    }

    [Fact]
    public async Task A_failed_test_fails_the_run_and_is_named_with_its_message()
    {
        Report("A", "passed", "failed");
        var output = await Verdict("1 passed, 1 failed, 0 skipped", status: 1, "A=2");
        output.ShouldContain("Test 1 of A");
        output.ShouldContain("because it failed");
    }

    [Fact]
    public async Task A_project_that_broke_off_is_a_failure_although_its_report_is_missing()
    {
        Report("A", "passed");
        (await Verdict("1 passed, 1 failed, 0 skipped", status: 1, "A=0", "B=134")).ShouldContain("B broke off with status 134");
    }

    [Fact]
    public async Task A_project_that_broke_off_after_its_report_is_a_failure() =>
        await VerdictOf(("A", "passed"), "1 passed, 1 failed, 0 skipped", status: 1, "A=139");

    [Fact]
    public async Task A_project_that_failed_outside_its_tests_is_a_failure() =>
        await VerdictOf(("A", "passed"), "1 passed, 1 failed, 0 skipped", status: 1, "A=2");

    [Fact]
    public async Task A_project_that_says_all_is_well_without_a_report_is_a_failure() =>
        await Verdict("0 passed, 1 failed, 0 skipped", status: 1, "A=0");

    [Fact]
    public async Task A_damaged_report_is_a_failure()
    {
        File.WriteAllText(Path.Combine(folder, "A.ctrf.json"), """{ "results": { "tests": [ { "name":""");
        await Verdict("0 passed, 1 failed, 0 skipped", status: 1, "A=0");
    }

    [Fact]
    public async Task A_run_in_which_nothing_was_chosen_is_a_failure() => await Verdict("0 passed, 0 failed, 0 skipped", status: 1, "A=8", "B=8");

    [Fact]
    public async Task A_project_of_which_nothing_was_chosen_does_not_fail_the_others() =>
        await VerdictOf(("A", "passed"), "1 passed, 0 failed, 0 skipped", status: 0, "A=0", "B=8");

    [Fact]
    public async Task A_control_character_in_a_test_name_does_not_spoil_the_report() =>
        await VerdictOf(("A\u0001", "passed"), "1 passed, 0 failed, 0 skipped", status: 0, "A\u0001=0");

    private Task<string> VerdictOf((string Project, string Status) report, string closing, int status, params string[] outcomes)
    {
        Report(report.Project, report.Status);
        return Verdict(closing, status, outcomes);
    }

    private async Task<string> Verdict(string closing, int status, params string[] outcomes)
    {
        var script = Path.Combine(Checkout.Folder, "scripts", "sum-up-tests.mjs");
        var result = await Command.RunAsync("node", [script, folder, .. outcomes], cancellation: TestContext.Current.CancellationToken);
        result.Problems.ShouldBeEmpty();
        result.Output.TrimEnd().Split('\n')[^1].ShouldBe(closing);
        result.Status.ShouldBe(status);
        return result.Output;
    }

    private void Report(string project, params string[] statuses)
    {
        var tests = statuses.Select((status, at) =>
            $$"""{ "name": "Test {{at}} of {{project}}", "status": "{{status}}", "duration": {{at}}, "message": "because it {{status}}" }""");
        File.WriteAllText(
            Path.Combine(folder, $"{project}.ctrf.json"), $$"""{ "results": { "tests": [{{string.Join(',', tests)}}] } }""");
    }
}
