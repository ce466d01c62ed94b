using System.Diagnostics;

namespace SiteProgress.Bench;

/// <summary>The bundled pages of the map bench, made from the sources beside it and kept in a folder of their own for one run.</summary>
public sealed class MapBenchPages : IDisposable
{
    private readonly string folder;

    private MapBenchPages(string folder) => this.folder = folder;

    /// <summary>Fetches the packages the lock files name, where they are not there yet, and bundles.</summary>
    /// <param name="benchFolder">The folder of this project.</param>
    /// <exception cref="InvalidOperationException">npm or node failed; the message is what it wrote.</exception>
    public static MapBenchPages Build(string benchFolder)
    {
        var pages = Path.Combine(benchFolder, "map");
        var client = Path.Combine(benchFolder, "..", "..", "src", "SiteProgress.Web", "client");
        foreach (var packages in (string[])[pages, client])
            if (!File.Exists(Path.Combine(packages, "node_modules", ".package-lock.json")))
                Run(packages, "npm", "ci", "--ignore-scripts", "--no-fund", "--no-audit", "--loglevel=error");
        var folder = Directory.CreateTempSubdirectory("siteprogress-map-bench-").FullName;
        Run(pages, "node", "build.mjs", folder);
        return new MapBenchPages(folder);
    }

    /// <summary>The bytes of one file of the pages.</summary>
    public byte[] Read(string name) => File.ReadAllBytes(Path.Combine(folder, Path.GetFileName(name)));

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private static void Run(string folder, string command, params string[] arguments)
    {
        var start = new ProcessStartInfo(command, arguments) { WorkingDirectory = folder, RedirectStandardError = true };
        using var process = Process.Start(start)!;
        var errors = process.StandardError.ReadToEnd();
        process.WaitForExit();
        if (process.ExitCode != 0)
            throw new InvalidOperationException($"{command} {string.Join(' ', arguments)} failed in {folder}: {errors}");
    }
}
