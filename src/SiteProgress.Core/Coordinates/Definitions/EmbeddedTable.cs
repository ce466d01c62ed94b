namespace SiteProgress.Core.Coordinates.Definitions;

/// <summary>Reads the tables that this assembly carries: comment lines, one header line, comma-separated cells.</summary>
internal static class EmbeddedTable
{
    /// <summary>The rows, each cut into at most so many cells; the last keeps the rest of its line.</summary>
    public static IEnumerable<string[]> Rows(string resource, int columns)
    {
        using var stream = typeof(EmbeddedTable).Assembly.GetManifestResourceStream(resource)
            ?? throw new InvalidOperationException($"The resource {resource} is missing from the assembly.");
        using var reader = new StreamReader(stream);
        var header = true;
        while (reader.ReadLine() is { } line)
        {
            if (line.Length == 0 || line[0] == '#') continue;
            if (!header) yield return line.Split(',', columns);
            header = false;
        }
    }
}
