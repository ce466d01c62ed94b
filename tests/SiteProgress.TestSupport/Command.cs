using System.Diagnostics;

namespace SiteProgress.TestSupport;

/// <summary>What a program that has ended left behind.</summary>
/// <param name="Status">Its exit status.</param>
/// <param name="Output">What it wrote to standard output.</param>
/// <param name="Problems">What it wrote to standard error.</param>
public sealed record CommandResult(int Status, string Output, string Problems);

/// <summary>Runs a program and waits for it.</summary>
public static class Command
{
    /// <summary>Runs a program to its end; its status is for the caller to judge.</summary>
    /// <param name="program">Name or path.</param>
    /// <param name="arguments">Arguments as they are, without a shell.</param>
    /// <param name="environment">Variables beside the inherited ones.</param>
    /// <param name="folder">Working folder; the caller's when left out.</param>
    /// <param name="cancellation">Ends the program and the waiting.</param>
    public static async Task<CommandResult> RunAsync(
        string program,
        IEnumerable<string> arguments,
        IReadOnlyDictionary<string, string>? environment = null,
        string? folder = null,
        CancellationToken cancellation = default)
    {
        using var process = Process.Start(StartInfo(program, arguments, environment, folder))!;
        try
        {
            process.StandardInput.Close();
            var output = process.StandardOutput.ReadToEndAsync(cancellation);
            var problems = process.StandardError.ReadToEndAsync(cancellation);
            await process.WaitForExitAsync(cancellation);
            return new CommandResult(process.ExitCode, await output, await problems);
        }
        catch (OperationCanceledException)
        {
            process.Kill(entireProcessTree: true);
            throw;
        }
    }

    internal static ProcessStartInfo StartInfo(
        string program, IEnumerable<string> arguments, IReadOnlyDictionary<string, string>? environment, string? folder)
    {
        var start = new ProcessStartInfo(program, arguments)
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = folder ?? "",
        };
        foreach (var (name, value) in environment ?? new Dictionary<string, string>()) start.Environment[name] = value;
        return start;
    }
}
