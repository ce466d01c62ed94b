using Shouldly;
using SiteProgress.Web.Commands;
using Xunit;

namespace SiteProgress.Web.Tests.Shell;

/// <summary>What the operator reads on the command line.</summary>
public sealed class CommandLineTests
{
    [Fact]
    public async Task An_unknown_command_gets_the_list_of_commands()
    {
        (int status, string output, string error) = await RunAsync("frobnicate");
        status.ShouldBe(2);
        output.ShouldBeEmpty();
        error.ShouldContain("There is no command \"frobnicate\"");
        foreach (ICommand command in CommandLine.All) error.ShouldContain($"  {command.Name}");
    }

    [Fact]
    public void Every_command_that_is_written_can_be_called()
        => typeof(ICommand).Assembly.GetTypes().Where(type => type is { IsClass: true, IsAbstract: false } && type.IsAssignableTo(typeof(ICommand)))
            .ShouldBe(CommandLine.All.Select(command => command.GetType()), ignoreOrder: true);

    [Fact]
    public async Task Help_lists_every_command_with_what_it_does()
    {
        (int status, string output, string error) = await RunAsync("help");
        status.ShouldBe(0);
        error.ShouldBeEmpty();
        foreach (ICommand command in CommandLine.All)
        {
            output.ShouldContain($"  {command.Name}");
            output.ShouldContain($"      {command.Summary}");
        }
    }

    [Fact]
    public async Task A_command_with_too_few_words_says_how_it_is_used()
    {
        (int status, _, string error) = await RunAsync("create-account", "Someone");
        status.ShouldBe(2);
        error.Trim().ShouldBe("use: create-account NAME EMAIL");
    }

    [Fact]
    public async Task A_server_for_all_the_world_in_clear_text_does_not_start()
    {
        (int status, _, string error) = await RunAsync("serve", "--urls", "http://0.0.0.0:5099", "--ConnectionStrings:Web", "Host=nowhere.invalid");
        status.ShouldBe(1);
        error.Trim().Split('\n').Length.ShouldBe(1);
        error.ShouldContain("does not listen on http://0.0.0.0:5099");
    }

    [Fact]
    public async Task A_missing_connection_string_is_one_sentence()
    {
        (int status, _, string error) = await RunAsync("serve", "--urls", "http://127.0.0.1:0", "--ConnectionStrings:Web=");
        status.ShouldBe(1);
        error.Trim().ShouldStartWith("No connection string:");
        error.ShouldNotContain("   at ");
    }

    [Fact]
    public async Task A_store_that_cannot_be_reached_is_one_sentence()
    {
        (int status, _, string error) = await RunAsync(
            "password-link", "someone@example.org", "--ConnectionStrings:Web=Host=/nowhere/at/all;Database=x;Username=y", $"--SiteProgress:DataFolder={Path.GetTempPath()}");
        status.ShouldBe(1);
        error.Split('\n').ShouldContain(line => line.StartsWith("The store cannot be reached", StringComparison.Ordinal));
        error.ShouldNotContain("   at ");
    }

    private static async Task<(int Status, string Output, string Error)> RunAsync(params string[] arguments)
    {
        StringWriter output = new();
        StringWriter error = new();
        int status = await CommandLine.RunAsync(arguments, output, error);
        return (status, output.ToString(), error.ToString());
    }
}
