using System.Globalization;
using SiteProgress.Core.Coordinates;

namespace SiteProgress.Core.Tests.Coordinates;

/// <summary>Reads the reference values under tests/reference-data/coordinates, each of which names its source at its head.</summary>
internal static class ReferenceFiles
{
    private static readonly Lazy<Dictionary<string, string>> Systems = new(() => Lines("systems.txt")
        .Select(line => line.Split('|', 2))
        .ToDictionary(parts => parts[0].Trim(), parts => parts[1].Trim()));

    public static string Folder { get; } = Path.Combine(RepositoryRoot(), "tests", "reference-data", "coordinates");

    public static IEnumerable<string> Lines(string file) =>
        File.ReadLines(Path.Combine(Folder, file)).Where(line => line.Length > 0 && line[0] != '#');

    public static IEnumerable<ReferencePoint> Points(string file) => Lines(file).Skip(1).Select(line =>
    {
        var cells = line.Split(',');
        return new ReferencePoint(cells[0], cells[1], Number(cells[2]), Number(cells[3]), Number(cells[4]), Number(cells[5]), Number(cells[6]));
    });

    public static ProjectedCrs System(string key)
    {
        var result = ProjectedCrs.FromWkt(0, Definition(key));
        return result.IsMade ? result.Crs : throw new InvalidOperationException($"{key}: {result.Refusal}");
    }

    public static string Definition(string key) => Systems.Value[key];

    public static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static string RepositoryRoot()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
            if (File.Exists(Path.Combine(folder.FullName, "SiteProgress.sln"))) return folder.FullName;
        throw new InvalidOperationException("The tests must run inside the repository: no SiteProgress.sln above " + AppContext.BaseDirectory);
    }
}

/// <summary>One published point: latitude and longitude in degrees, then the two values as the system writes them.</summary>
internal sealed record ReferencePoint(
    string System, string Point, double Latitude, double Longitude, double First, double Second, double Tolerance);
