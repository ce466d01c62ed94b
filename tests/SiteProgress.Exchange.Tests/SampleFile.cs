namespace SiteProgress.Exchange.Tests;

/// <summary>The sample files and the demo's seed files, copied beside the tests.</summary>
internal static class SampleFile
{
    public static string Folder { get; } = Path.Combine(AppContext.BaseDirectory, "sample-files");

    public static string SeedFolder { get; } = Path.Combine(AppContext.BaseDirectory, "seed-data");

    public static Stream Open(string name) => File.OpenRead(Path.Combine(Folder, name));
}
