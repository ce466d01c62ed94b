using System.Diagnostics;
using System.Runtime.CompilerServices;
using Shouldly;
using Xunit;

namespace SiteProgress.Web.Tests.Client;

/// <summary>Runs the own tests of the modules that run in the browser, so that one command counts them with all others.</summary>
public sealed class ClientModuleTests
{
    private static readonly string Client = Path.GetFullPath(Path.Combine(SourceFolder(), "../../../src/SiteProgress.Web/client"));

    /// <summary>One entry for each test file beside a module.</summary>
    public static TheoryData<string> TestFiles() =>
        [.. Directory.GetDirectories(Client)
            .Select(module => Path.Combine(module, "tests"))
            .Where(Directory.Exists)
            .SelectMany(tests => Directory.GetFiles(tests, "*.test.js"))
            .Select(file => Path.GetRelativePath(Client, file))
            .Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(TestFiles))]
    public async Task A_module_passes_its_own_tests(string file)
    {
        var start = new ProcessStartInfo("node", ["--test", "--test-reporter=tap", file])
        {
            WorkingDirectory = Client,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        using var process = Process.Start(start)!;
        var output = process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        var errors = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);

        process.ExitCode.ShouldBe(0, await output + await errors);
        (await output).ShouldContain("# fail 0");
        (await output).ShouldNotContain("# tests 0");
    }

    private static string SourceFolder([CallerFilePath] string file = "") => Path.GetDirectoryName(file)!;
}
