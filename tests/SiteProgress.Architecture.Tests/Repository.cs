namespace SiteProgress.Architecture.Tests;

/// <summary>The files of this checkout, found from where the tests run.</summary>
internal static class Repository
{
    private static readonly string[] NotOurs = ["artifacts", "node_modules", ".git", ".siteprogress", "dist", "bin", "obj"];

    /// <summary>Top folder.</summary>
    public static string Root { get; } = Find();

    /// <summary>Text files below a folder with one of these endings, generated folders left out.</summary>
    public static IEnumerable<string> Files(string below, params string[] endings)
        => Directory.EnumerateFiles(Path.Combine(Root, below), "*", SearchOption.AllDirectories)
            .Where(path => endings.Contains(Path.GetExtension(path))
                && !Path.GetRelativePath(Root, path).Split(Path.DirectorySeparatorChar).Any(NotOurs.Contains));

    /// <summary>Path of a file as it stands in the repository.</summary>
    public static string Relative(string path) => Path.GetRelativePath(Root, path);

    private static string Find()
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "SiteProgress.sln"))) folder = folder.Parent;
        return folder?.FullName ?? throw new InvalidOperationException("The tests run outside a checkout.");
    }
}
