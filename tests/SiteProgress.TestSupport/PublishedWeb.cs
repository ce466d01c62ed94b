using System.Collections.Concurrent;
using System.Diagnostics;
using System.Text.RegularExpressions;

namespace SiteProgress.TestSupport;

/// <summary>The published application as a process of its own, as an operator runs it, on a free port of this machine.</summary>
public sealed partial class PublishedWeb : IAsyncDisposable
{
    private readonly Process process;
    private readonly ConcurrentQueue<string> lines = new();
    private readonly TaskCompletionSource<Uri> listening = new(TaskCreationOptions.RunContinuationsAsynchronously);

    private PublishedWeb(Process process) => this.process = process;

    /// <summary>Folder of the published application, as <c>./test</c> hands it over.</summary>
    /// <exception cref="InvalidOperationException">None was handed over; the message says how to get one.</exception>
    public static string Folder =>
        Environment.GetEnvironmentVariable("SITEPROGRESS_WEB_PUBLISHED") is { Length: > 0 } folder
            ? folder
            : throw new InvalidOperationException(
                "SITEPROGRESS_WEB_PUBLISHED is not set, so there is no published application to test. Run ./test, or publish it for "
                + "this shell: eval \"$(scripts/publish.sh)\"");

    /// <summary>Where it answers.</summary>
    public Uri Address { get; private set; } = new("about:blank");

    /// <summary>Everything it has written so far.</summary>
    public string Log => string.Join('\n', lines);

    /// <summary>Brings a database up to date by the application's own command.</summary>
    /// <exception cref="InvalidOperationException">The command failed; the message is what it wrote.</exception>
    public static async Task MigrateAsync(MigrationTarget target)
    {
        // Every command wants to know where the data folder is; migrating leaves nothing in it.
        var folder = Directory.CreateTempSubdirectory("siteprogress-migrate-").FullName;
        var result = await RunAsync(target, ["migrate"], new Dictionary<string, string> { ["SiteProgress__DataFolder"] = folder });
        Directory.Delete(folder, recursive: true);
        if (result.Status != 0) throw new InvalidOperationException($"migrate ended with status {result.Status}: {result.Output}{result.Problems}");
    }

    /// <summary>Runs one of the application's commands on a database.</summary>
    /// <param name="target">The database.</param>
    /// <param name="arguments">The command and its arguments.</param>
    /// <param name="environment">Settings beside the connections.</param>
    public static Task<CommandResult> RunAsync(
        MigrationTarget target, IEnumerable<string> arguments, IReadOnlyDictionary<string, string>? environment = null) =>
        Command.RunAsync("dotnet", ["SiteProgress.Web.dll", .. arguments], Settings(target, environment), Folder);

    /// <summary>Starts the application in its Production form and waits until it listens.</summary>
    /// <param name="target">The database, already up to date.</param>
    /// <param name="environment">Settings beside the connections, such as <c>SiteProgress__DataFolder</c>.</param>
    /// <exception cref="InvalidOperationException">It ended before it listened; the message is what it wrote.</exception>
    public static async Task<PublishedWeb> StartAsync(MigrationTarget target, IReadOnlyDictionary<string, string>? environment = null)
    {
        var start = Command.StartInfo(
            "dotnet", ["SiteProgress.Web.dll", "serve", "--urls", "http://127.0.0.1:0"], Settings(target, environment), Folder);
        var web = new PublishedWeb(new Process { StartInfo = start, EnableRaisingEvents = true });
        web.process.OutputDataReceived += (_, line) => web.Hear(line.Data);
        web.process.ErrorDataReceived += (_, line) => web.Hear(line.Data);
        web.process.Exited += (_, _) => web.listening.TrySetException(
            new InvalidOperationException($"The application ended before it listened: {web.Log}"));
        web.process.Start();
        web.process.BeginOutputReadLine();
        web.process.BeginErrorReadLine();
        web.Address = await web.listening.Task;
        return web;
    }

    /// <summary>Ends the process at once, as a power cut would, and waits until it is gone.</summary>
    public async Task KillAsync()
    {
        process.Kill();
        await process.WaitForExitAsync();
    }

    /// <inheritdoc />
    public async ValueTask DisposeAsync()
    {
        if (!process.HasExited) await KillAsync();
        process.Dispose();
    }

    private void Hear(string? line)
    {
        if (line is null) return;
        lines.Enqueue(line);
        var match = LoopbackAddress().Match(line);
        if (match.Success) listening.TrySetResult(new Uri(match.Value));
    }

    private static Dictionary<string, string> Settings(MigrationTarget target, IReadOnlyDictionary<string, string>? more)
    {
        var settings = new Dictionary<string, string>(more ?? new Dictionary<string, string>())
        {
            ["ASPNETCORE_ENVIRONMENT"] = "Production",
            ["ConnectionStrings__Owner"] = target.OwnerConnectionString,
            ["ConnectionStrings__Web"] = target.WebConnectionString,
        };
        return settings;
    }

    // The web server names the port it was given in the line that says where it listens; port 0 stands for any.
    [GeneratedRegex(@"http://127\.0\.0\.1:[1-9][0-9]*")]
    private static partial Regex LoopbackAddress();
}
