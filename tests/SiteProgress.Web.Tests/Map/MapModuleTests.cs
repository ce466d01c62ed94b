using System.Diagnostics;
using System.Runtime.CompilerServices;
using Shouldly;
using Xunit;

namespace SiteProgress.Web.Tests.Map;

/// <summary>Runs the map module's own tests, so that one command counts them with all others.</summary>
public sealed class MapModuleTests
{
    private static readonly string Client = Path.GetFullPath(Path.Combine(SourceFolder(), "../../../src/SiteProgress.Web/client"));

    /// <summary>One entry for each test file beside the module.</summary>
    public static TheoryData<string> TestFiles() =>
        [.. Directory.GetFiles(Path.Combine(Client, "map", "tests"), "*.test.js").Select(file => Path.GetFileName(file)).Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(TestFiles))]
    public async Task The_map_module_passes_its_own_tests(string file)
    {
        var start = new ProcessStartInfo("node", ["--test", "--test-reporter=tap", Path.Combine("map", "tests", file)])
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
