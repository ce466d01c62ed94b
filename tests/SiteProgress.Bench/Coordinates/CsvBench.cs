using System.Diagnostics;
using System.Globalization;

namespace SiteProgress.Bench.Coordinates;

/// <summary>The executable's convert command against cs2cs: the same million points from a file to a file, whole processes, text in and text out.</summary>
internal static class CsvBench
{
    private const int Count = 1_000_000;
    private const string Ours = "convert command", Cs2cs = "cs2cs";
    private const double Goal = 5;

    /// <summary>Measures both in turn and writes a line for each.</summary>
    public static async Task<IReadOnlyList<Outcome>> RunAsync(TextWriter output, ProjPeer peer, string definition)
    {
        string In(string name) => Path.Combine(peer.Folder, name);
        await WritePointsAsync(In("points.csv"), ',');
        await WritePointsAsync(In("points.txt"), ' ');
        await File.WriteAllTextAsync(In("crs.wkt"), definition);
        var product = Path.GetFullPath(Path.Combine(AppContext.BaseDirectory, "..", "..", "SiteProgress.Web", Path.GetFileName(Path.TrimEndingDirectorySeparator(AppContext.BaseDirectory)), "SiteProgress.Web.dll"));
        if (!File.Exists(product)) throw new FileNotFoundException("The product is not built beside the bench.", product);
        var commands = new Dictionary<string, string>
        {
            [Ours] = $"dotnet '{product}' convert '{In("crs.wkt")}' projectedCrs geographic < '{In("points.csv")}' > '{In("ours.csv")}'",
            [Cs2cs] = $"cs2cs -f %.10f EPSG:32631 EPSG:4326 < '{In("points.txt")}' > '{In("cs2cs.txt")}'",
        };
        var measured = await Rounds.RunAsync([Ours, Cs2cs], name => Task.FromResult(Milliseconds(commands[name])));
        var difference = Difference(In("ours.csv"), In("cs2cs.txt"));
        foreach (var name in commands.Keys)
            await output.WriteLineAsync(Text($"{name,-16}{Rounds.Median(measured[name]),10:0} ms for {Count} lines"));
        await output.WriteLineAsync(Text($"their answers differ by {difference * 111_320_000:0.0000} mm at most; the tenth decimal of a degree is 0.0111 mm"));
        return
        [
            new("coordinates-csv-against-cs2cs", Rounds.Median(measured[Cs2cs]) / Rounds.Median(measured[Ours]), Goal),
            new("coordinates-csv-agreement-in-the-tenth-decimal", 1.01e-10 / Math.Max(difference, 1e-12), 1),
        ];
    }

    private static async Task WritePointsAsync(string file, char delimiter)
    {
        var random = new Random(20260303);
        await using var text = new StreamWriter(file);
        for (var i = 0; i < Count; i++)
            text.Write(string.Create(CultureInfo.InvariantCulture, $"{400_000 + 300_000 * random.NextDouble():F4}{delimiter}{5_500_000 + 500_000 * random.NextDouble():F4}\n"));
    }

    private static double Milliseconds(string command)
    {
        var start = Stopwatch.GetTimestamp();
        ProjPeer.Run("sh", ["-c", command], _ => { });
        return Stopwatch.GetElapsedTime(start).TotalMilliseconds;
    }

    /// <summary>Largest difference of a latitude or longitude, degrees.</summary>
    private static double Difference(string ours, string theirs)
    {
        double largest = 0;
        var count = 0;
        foreach (var (mine, other) in File.ReadLines(ours).Zip(File.ReadLines(theirs)))
        {
            count++;
            var a = mine.Split(',');
            var b = other.Split((char[])['\t', ' '], StringSplitOptions.RemoveEmptyEntries);
            for (var i = 0; i < 2; i++)
                largest = Math.Max(largest, Math.Abs(double.Parse(a[i], CultureInfo.InvariantCulture) - double.Parse(b[i], CultureInfo.InvariantCulture)));
        }

        return count == Count ? largest : throw new InvalidDataException($"{count} of {Count} lines came out.");
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
