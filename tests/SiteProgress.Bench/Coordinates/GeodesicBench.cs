using System.Globalization;
using System.Runtime.CompilerServices;
using SiteProgress.Core.Coordinates;

namespace SiteProgress.Bench.Coordinates;

/// <summary>The pinned geodesic lengths made once more by GeographicLib's algorithms, and our ellipsoidal distances against them.</summary>
public static class GeodesicBench
{
    private const double PinnedMetres = 1e-6, DistanceMetres = 1e-3;

    /// <summary>Makes the lengths again and compares both ways.</summary>
    public static async Task<IReadOnlyList<Outcome>> RunAsync(TextWriter output)
    {
        string[] file = await File.ReadAllLinesAsync(Path.Combine(Reference(), "geodesic-distances.csv"));
        string[][] lines = [.. file.Where(line => line.Length > 0 && line[0] != '#').Skip(1).Select(line => line.Split(','))];
        string[] again = ProjPeer.Run("node", [Path.Combine(ConversionContenders.Proj4Folder(), "geodesic-distances.mjs"), "again"], input => input.Write(string.Join('\n', file)))
            .Split('\n', StringSplitOptions.RemoveEmptyEntries);
        var systems = (await File.ReadAllLinesAsync(Path.Combine(Reference(), "systems.txt"))).Where(line => line.Contains('|', StringComparison.Ordinal))
            .Select(line => line.Split('|', 2)).ToDictionary(parts => parts[0].Trim(), parts => ProjectedCrs.FromWkt(0, parts[1].Trim()).Crs);
        double pinned = lines.Length == again.Length ? lines.Zip(again).Max(one => Math.Abs(Number(one.First[7]) - Number(one.Second))) : double.NaN;
        double ours = lines.Max(cells => Math.Abs(Ellipsoidal(systems[cells[0]]!, cells) - Number(cells[7])));
        await output.WriteLineAsync(string.Create(CultureInfo.InvariantCulture,
            $"geodesics: {lines.Length} lines of 50 m to 50 km; pinned against made again {pinned * 1000:0.000000} mm, our ellipsoidal distance against them {ours * 1000:0.0000} mm"));
        return
        [
            new("coordinates-geodesics-as-pinned", PinnedMetres / Math.Max(pinned, PinnedMetres / 100), 1),
            new("coordinates-ellipsoidal-distance-within-1-mm", DistanceMetres / ours, 1),
        ];
    }

    private static double Ellipsoidal(ProjectedCrs crs, string[] cells) => GroundDistance.Between(
        crs, crs.Project(new(Number(cells[3]), Number(cells[4]))), crs.Project(new(Number(cells[5]), Number(cells[6]))))?.EllipsoidMetres ?? double.NaN;

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static string Reference([CallerFilePath] string file = "") => Path.Combine(Path.GetDirectoryName(file)!, "..", "..", "reference-data", "coordinates");
}
