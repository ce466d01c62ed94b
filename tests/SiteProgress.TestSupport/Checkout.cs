namespace SiteProgress.TestSupport;

/// <summary>The checkout the tests were built in.</summary>
public static class Checkout
{
    /// <summary>Its top folder, found from where the running test lies.</summary>
    /// <exception cref="InvalidOperationException">The test does not lie in a checkout.</exception>
    public static string Folder { get; } = Find();

    private static string Find()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "SiteProgress.sln"))) return folder.FullName;
        }

        throw new InvalidOperationException($"No folder above {AppContext.BaseDirectory} holds SiteProgress.sln.");
    }
}
