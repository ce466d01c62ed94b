using Shouldly;
using SiteProgress.TestSupport;
using Xunit;

namespace SiteProgress.Web.Tests.Shell;

/// <summary>An operator's word after ./run: a site is opened, backed up, restored elsewhere and verified, by the script itself.</summary>
public sealed class BackUpTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("siteprogress-back-up-").FullName;

    public BackUpTests()
    {
        // The store's server may be another user's, who must be able to come through.
        if (!OperatingSystem.IsWindows()) File.SetUnixFileMode(folder, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute | UnixFileMode.GroupExecute | UnixFileMode.OtherExecute);
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task What_was_backed_up_is_restored_into_another_folder_and_verifies_and_nothing_is_written_over()
    {
        string seed = Path.Combine(Checkout.Folder, "seed-data");
        (await RunAsync("first", "open-site", Path.Combine(seed, "site.json"), Path.Combine(seed, "control-points.csv"))).Status.ShouldBe(0);
        CommandResult backUp = await RunAsync("first", "back-up", "site.tar");
        backUp.Status.ShouldBe(0, backUp.Problems);

        CommandResult again = await RunAsync("first", "back-up", "site.tar");
        (again.Status, again.Problems).ShouldSatisfyAllConditions(one => one.Status.ShouldBe(1), one => one.Problems.ShouldContain("is there already"));
        CommandResult over = await RunAsync("first", "restore", "site.tar");
        (over.Status, over.Problems).ShouldSatisfyAllConditions(one => one.Status.ShouldBe(1), one => one.Problems.ShouldContain("holds a store already"));
        await File.WriteAllTextAsync(Path.Combine(folder, "other.tar"), "not a backup", TestContext.Current.CancellationToken);
        CommandResult other = await RunAsync("second", "restore", "other.tar");
        (other.Status, other.Problems).ShouldSatisfyAllConditions(one => one.Status.ShouldBe(1), one => one.Problems.ShouldContain("is not a backup"));

        CommandResult restored = await RunAsync("second", "restore", "site.tar");
        restored.Status.ShouldBe(0, restored.Problems);
        CommandResult verified = await RunAsync("second", "verify", "sandlark");
        verified.Status.ShouldBe(0, verified.Problems);
        verified.Output.ShouldContain("chain: holds");
        verified.Output.ShouldContain("heads kept outside the store: agree");
    }

    private Task<CommandResult> RunAsync(string data, params string[] words)
        => Command.RunAsync(
            Path.Combine(Checkout.Folder, "run"), ["--data", Path.Combine(folder, data), .. words], folder: folder, cancellation: TestContext.Current.CancellationToken);
}
