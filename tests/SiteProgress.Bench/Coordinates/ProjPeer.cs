using System.Diagnostics;
using System.Runtime.CompilerServices;

namespace SiteProgress.Bench.Coordinates;

/// <summary>PROJ's own library as the peer: a small C program, compiled against Debian's libproj-dev and run.</summary>
public sealed class ProjPeer : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("siteprogress-proj-peer-");

    /// <summary>Compiles the caller with the machine's C compiler.</summary>
    public ProjPeer()
    {
        Program = Path.Combine(folder.FullName, "proj-peer");
        Run("cc", ["-O3", "-march=native", "-o", Program, Path.Combine(SourceFolder(), "proj-peer.c"), "-lproj", "-lm"], _ => { });
    }

    /// <summary>A folder of its own for files that go to and fro.</summary>
    public string Folder => folder.FullName;

    private string Program { get; }

    /// <summary>Runs the caller, feeds it and returns what it wrote.</summary>
    public string Ask(IReadOnlyList<string> arguments, Action<TextWriter> feed) => Run(Program, arguments, feed);

    /// <inheritdoc/>
    public void Dispose() => folder.Delete(recursive: true);

    internal static string Run(string program, IReadOnlyList<string> arguments, Action<TextWriter> feed)
    {
        var start = new ProcessStartInfo(program) { RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (var argument in arguments) start.ArgumentList.Add(argument);
        using var process = Process.Start(start) ?? throw new InvalidOperationException($"{program} did not start.");
        var output = process.StandardOutput.ReadToEndAsync();
        var errors = process.StandardError.ReadToEndAsync();
        using (var input = process.StandardInput) feed(input);
        process.WaitForExit();
        return process.ExitCode == 0
            ? output.GetAwaiter().GetResult()
            : throw new InvalidOperationException($"{program} ended with {process.ExitCode}: {errors.GetAwaiter().GetResult()}");
    }

    private static string SourceFolder([CallerFilePath] string file = "") => Path.GetDirectoryName(file)!;
}
