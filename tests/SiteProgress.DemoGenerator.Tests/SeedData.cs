using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Text.Json;
using Shouldly;

namespace SiteProgress.DemoGenerator.Tests;

/// <summary>The committed seed-data as a reader without any of the generator's code sees it: bytes, rows, numbers.</summary>
internal static class SeedData
{
    public static string Folder { get; } = Find();

    public static IReadOnlyList<string> Names { get; } =
    [
        .. Directory.GetFiles(Folder, "*", SearchOption.AllDirectories)
            .Select(path => Path.GetRelativePath(Folder, path).Replace('\\', '/')).Order(StringComparer.Ordinal),
    ];

    public static byte[] Bytes(string name) => File.ReadAllBytes(Path.Combine(Folder, name));

    /// <summary>The bytes of a file, unpacked where it is packed: how hard a packer works differs between machines, what it holds does not.</summary>
    public static byte[] Unpacked(string name, byte[] bytes)
    {
        if (!name.EndsWith(".gz", StringComparison.Ordinal)) return bytes;
        using GZipStream gzip = new(new MemoryStream(bytes), CompressionMode.Decompress);
        using MemoryStream whole = new();
        gzip.CopyTo(whole);
        return whole.ToArray();
    }

    public static JsonElement Json(string name) => JsonDocument.Parse(Bytes(name)).RootElement;

    /// <summary>Rows of one table by header words in small letters without units; comment lines are passed over, cells trimmed.</summary>
    public static IReadOnlyList<IReadOnlyDictionary<string, string>> Rows(string name)
    {
        var lines = Encoding.UTF8.GetString(Unpacked(name, Bytes(name))).TrimStart('\uFEFF')
            .Split('\n').Select(line => line.TrimEnd('\r')).Where(line => line.Length > 0 && line[0] != '#').ToList();
        var delimiter = lines[0].Contains(';', StringComparison.Ordinal) ? ';' : lines[0].Contains('\t', StringComparison.Ordinal) ? '\t' : ',';
        var header = lines[0].Split(delimiter)
            .Select(cell => cell.Split('[')[0].Trim().Replace('_', ' ').ToLowerInvariant()).ToList();
        return [.. lines.Skip(1).Select(line =>
        {
            var cells = Cells(line, delimiter);
            cells.Count.ShouldBe(header.Count, name + ": " + line);
            return header.Zip(cells).ToDictionary(pair => pair.First, pair => pair.Second.Trim());
        })];
    }

    /// <summary>Splits at delimiters outside quotes.</summary>
    private static List<string> Cells(string line, char delimiter)
    {
        var cells = new List<string> { "" };
        var quoted = false;
        foreach (var character in line)
        {
            if (character == '"') quoted = !quoted;
            else if (character == delimiter && !quoted) cells.Add("");
            else cells[^1] += character;
        }

        return cells;
    }

    public static IEnumerable<string> AsBuilt(string barge) =>
        Names.Where(name => name.StartsWith("as-built/", StringComparison.Ordinal) && name.Contains(barge, StringComparison.OrdinalIgnoreCase));

    /// <summary>A number with a decimal point or a decimal comma.</summary>
    public static double Number(string cell) => double.Parse(cell.Replace(',', '.'), CultureInfo.InvariantCulture);

    public static IReadOnlyList<JsonElement> Faults(string code) =>
        [.. Json("truth/truth-faults.json").GetProperty("faults").EnumerateArray().Where(fault => fault.GetProperty("code").GetString() == code)];

    public static IReadOnlyList<string> Texts(JsonElement of, string property) =>
        [.. of.GetProperty(property).EnumerateArray().Select(each => each.GetString()!)];

    /// <summary>Design positions on the site grid, metres; zone B turned back from EPSG:25832 with the figures of the README.</summary>
    public static IReadOnlyDictionary<string, (double X, double Y)> Planned { get; } = ReadPlanned();

    public static (double X, double Y) FromProjected(double easting, double northing)
    {
        const double scale = 0.99974073;
        var (sin, cos) = Math.SinCos(33 * Math.PI / 180);
        var (east, north) = ((easting - 390735.0) / scale, (northing - 6161852.0) / scale);
        return ((east * cos) - (north * sin), (east * sin) + (north * cos));
    }

    private static Dictionary<string, (double X, double Y)> ReadPlanned()
    {
        var planned = new Dictionary<string, (double, double)>();
        foreach (var row in Rows("planned-piles-zone-a.csv").Concat(Rows("planned-piles-zone-c.csv")))
            planned.Add(row["pile no"], (Number(row["x"]), Number(row["y"])));
        foreach (var row in Rows("planned-piles-zone-b.csv"))
            planned.Add(row["pile no"], FromProjected(Number(row["easting"]), Number(row["northing"])));
        return planned;
    }

    private static string Find()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "SiteProgress.sln"))) folder = folder.Parent;
        return Path.Combine(folder!.FullName, "seed-data");
    }
}
