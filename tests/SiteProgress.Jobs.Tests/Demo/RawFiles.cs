using System.Globalization;
using System.Text.Json;
using SiteProgress.TestSupport;

namespace SiteProgress.Jobs.Tests.Demo;

/// <summary>
/// The demo's raw files, read in a few plain lines that share nothing with the product: the other side of every figure that a
/// page shows of the demo.
/// </summary>
internal static class RawFiles
{
    private static readonly Lazy<RawRow[]> All = new(() => Read().ToArray());

    /// <summary>One row a record; rows that repeat an earlier one are left out.</summary>
    public static RawRow[] Built => All.Value;

    /// <summary>Design position of every planned pile of zones A and C, whose files are in the site grid.</summary>
    public static Dictionary<string, (double X, double Y)> Planned(string zone)
        => Table(Path.Combine(Folder, $"planned-piles-zone-{zone}.csv"))
            .ToDictionary(row => row["pileno"], row => (Number(row["x"])!.Value, Number(row["y"])!.Value));

    /// <summary>Records a planted fault touches, by the truth file.</summary>
    public static HashSet<string> RecordsOf(string fault)
    {
        using JsonDocument truth = JsonDocument.Parse(File.ReadAllText(Path.Combine(Folder, "truth", "truth-faults.json")));
        return truth.RootElement.GetProperty("faults").EnumerateArray()
            .Where(one => one.GetProperty("code").GetString() == fault)
            .SelectMany(one => one.GetProperty("records").EnumerateArray().Select(record => record.GetString()!))
            .ToHashSet();
    }

    public static string Folder => Path.Combine(Checkout.Folder, "seed-data");

    private static IEnumerable<RawRow> Read()
    {
        HashSet<string> seen = [];
        foreach (string file in Directory.GetFiles(Path.Combine(Folder, "as-built")).Order(StringComparer.Ordinal))
        {
            foreach (Dictionary<string, string> row in Table(file))
            {
                string content = string.Join('|', row.Where(cell => cell.Key != "record").Select(cell => cell.Value));
                if (!seen.Add(content)) continue;
                yield return new RawRow(
                    row["record"], row["pileno"], Barge(row["barge"]), int.Parse(row["casing"], CultureInfo.InvariantCulture), Day(row["end"]),
                    Number(row.GetValueOrDefault("xtouch-down")), Number(row.GetValueOrDefault("ytouch-down")),
                    Number(row.GetValueOrDefault("xend")), Number(row.GetValueOrDefault("yend")),
                    Number(row["toplevel"]), Number(row["tiplevel"]), Number(row["sandincasing"]), row["fix"], row["outcome"]);
            }
        }
    }

    private static IEnumerable<Dictionary<string, string>> Table(string file)
    {
        string[] lines = File.ReadAllLines(file).Select(line => line.TrimStart('\uFEFF')).Where(line => line.Length > 0 && line[0] != '#').ToArray();
        char delimiter = lines[0].Contains('\t') ? '\t' : lines[0].Contains(';') ? ';' : ',';
        string[] heads = Array.ConvertAll(lines[0].Split(delimiter), head => head.Split('[')[0].Replace("_", "").Replace(" ", "").ToLowerInvariant());
        foreach (string line in lines[1..])
        {
            string[] cells = line.Split(delimiter);
            yield return heads.Zip(cells).ToDictionary(cell => cell.First, cell => delimiter == ';' ? cell.Second.Trim().Replace(',', '.') : cell.Second.Trim());
        }
    }

    /// <summary>The working day: six hours earlier on the clock of the site, whose hands every file shows.</summary>
    private static DateOnly Day(string end)
    {
        string clock = end.Length > 16 && end[10] == 'T' ? end[..16] : end;
        DateTime local = DateTime.ParseExact(clock, ["yyyy-MM-dd'T'HH:mm", "dd.MM.yyyy HH:mm"], CultureInfo.InvariantCulture);
        return DateOnly.FromDateTime(local.AddHours(-6));
    }

    /// <summary>Crews write a barge's name in small letters or in capitals.</summary>
    private static string Barge(string written) => string.Concat(written[..1].ToUpperInvariant(), written[1..].ToLowerInvariant());

    private static double? Number(string? text)
        => double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) ? number : null;
}

/// <summary>A row of an as-built file.</summary>
internal sealed record RawRow(
    string Record,
    string Pile,
    string Barge,
    int Casing,
    DateOnly Day,
    double? TouchX,
    double? TouchY,
    double? EndX,
    double? EndY,
    double? Top,
    double? Tip,
    double? Sand,
    string Fix,
    string Outcome)
{
    /// <summary>Zone of the pile, the first letter of its number; T for a trial pile.</summary>
    public string Zone => Pile[..1];

    /// <summary>True when the crew says that something of it stands.</summary>
    public bool Stands => Outcome is not ("abandoned" or "trial");
}
