using System.Diagnostics;
using System.Globalization;
using System.Text;
using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange;
using SiteProgress.Exchange.PileSchedules;

namespace SiteProgress.Bench.Formats;

/// <summary>
/// The same 100,000 planned piles in each format, read into checked rows, against ogr2ogr (GDAL) reading the same file and
/// writing it as CSV; and a text and a workbook of 200 MB, for the memory they take.
/// </summary>
internal static class FormatsBench
{
    private const int Piles = 100_000;
    private const double Goal = 0.33;

    private static readonly (string Format, string Driver, string Ending, string[] Options)[] Formats =
    [
        ("CSV", "CSV", "csv", ["-lco", "GEOMETRY=AS_XY"]),
        ("XLSX", "XLSX", "xlsx", []),
        ("GeoJSON", "GeoJSON", "geojson", []),
        ("GeoPackage", "GPKG", "gpkg", []),
    ];

    /// <summary>Measures every format.</summary>
    public static async Task<IReadOnlyList<Outcome>> RunAsync(TextWriter output)
    {
        string folder = Directory.CreateTempSubdirectory("siteprogress-formats-").FullName;
        try
        {
            List<Outcome> outcomes = [];
            string source = Write(Path.Combine(folder, "source.csv"), Piles, 0);
            await output.WriteLineAsync("format        MB    ours s  ogr2ogr s   peak of ours, managed MB   (medians of five, in turn)");
            foreach ((string format, string driver, string ending, string[] options) in Formats)
                outcomes.Add(await MeasureAsync(output, folder, source, format, driver, ending, options));
            foreach ((string column, string where) in new[] { ("Operator", "columns that are not used"), ("Remark", "remarks, each another, which are kept") })
            {
                string large = Write(Path.Combine(folder, "large.csv"), 490_000, 370, column);
                (double seconds, double peak, int rows) = Read(large, folder);
                await output.WriteLineAsync(Text($"one text of {new FileInfo(large).Length / 1e6:0} MB with {rows} rows, its bulk in {where}: {seconds:0.0} s, peak {peak:0} MB managed, the rows themselves included"));
            }

            return outcomes;
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static async Task<Outcome> MeasureAsync(TextWriter output, string folder, string source, string format, string driver, string ending, string[] options)
    {
        string path = Path.Combine(folder, $"piles.{ending}");
        Ogr2Ogr(["-f", driver, path, source, "-a_srs", "EPSG:25832", "-oo", "X_POSSIBLE_NAMES=E", "-oo", "Y_POSSIBLE_NAMES=N", "-oo", "AUTODETECT_TYPE=YES", .. options]);
        double peak = 0;
        var times = await Rounds.RunAsync(["ours", "ogr2ogr"], contender =>
        {
            if (contender == "ogr2ogr")
            {
                string written = Path.Combine(folder, "peer.csv");
                File.Delete(written);
                return Task.FromResult(Ogr2Ogr(["-f", "CSV", written, path]));
            }

            (double seconds, double most, int rows) = Read(path, folder);
            if (rows != Piles) throw new InvalidOperationException($"{format}: {rows} rows were read of {Piles}.");
            peak = Math.Max(peak, most);
            return Task.FromResult(seconds);
        });
        double ours = Rounds.Median(times["ours"]), peer = Rounds.Median(times["ogr2ogr"]);
        await output.WriteLineAsync(Text($"{format,-11}{new FileInfo(path).Length / 1e6,6:0.0}{ours,10:0.00}{peer,11:0.00}{peak,27:0}"));
        return new Outcome($"formats-{format.ToLowerInvariant()}", peer / ours, Goal);
    }

    private static (double Seconds, double PeakMegabytes, int Rows) Read(string path, string folder)
    {
        ReadingChoices choices = new()
        {
            Zones = ["A"],
            Barges = [],
            GridAxes = new GridAxes("X", "Y"),
            PileNumberCharacters = "A-Z0-9-",
            TimeZone = "UTC",
            Now = Instant.FromUtc(2026, 6, 1, 0, 0),
            ProjectedCrs = 25832,
            CopyToDisk = bytes => Copy(bytes, folder),
        };
        GC.Collect();
        long before = GC.GetTotalMemory(forceFullCollection: true);
        using PeakMemory memory = new();
        Stopwatch watch = Stopwatch.StartNew();
        using FileStream file = File.OpenRead(path);
        TableReading<AsPlanned> reading = PlannedPileReader.Read(file, choices);
        watch.Stop();
        if (reading.ProblemCount > 0) throw new InvalidOperationException(reading.Problems[0].Sentence);
        return (watch.Elapsed.TotalSeconds, (memory.Most - before) / 1e6, reading.Rows.Count);
    }

    private static string Copy(Stream bytes, string folder)
    {
        string path = Path.Combine(folder, "copy.tmp");
        using FileStream copy = File.Create(path);
        bytes.CopyTo(copy);
        return path;
    }

    private static string Write(string path, int piles, int filled, string column = "Remark")
    {
        using StreamWriter text = new(path);
        text.Write($"Pile No,Zone,Tip level [m],{column},E,N\n");
        Random chance = new(3);
        for (int pile = 0; pile < piles; pile++)
            text.Write(string.Create(CultureInfo.InvariantCulture, $"A-{pile + 1:000000},A,{-28 - (pile % 100 / 100.0):0.00},{Sentence(chance, filled)}{(filled > 0 ? pile : 0)},{392000 + (pile % 400 * 2.1):0.000},{6162000 + (pile / 400 * 2.1):0.000}\n"));
        return path;
    }

    /// <summary>Words as a crew writes them, each sentence another: what can be packed of it is what can be packed of such remarks.</summary>
    private static string Sentence(Random chance, int letters)
    {
        StringBuilder text = new(letters + 20);
        while (text.Length < letters) text.Append(Words[chance.Next(Words.Length)]).Append(chance.Next(4) == 0 ? chance.Next(1_000).ToString(CultureInfo.InvariantCulture) : "").Append(' ');
        text.Length = letters;
        return text.ToString();
    }

    private static readonly string[] Words =
    [
        "casing", "hard layer at", "sand", "refilled", "hose", "changed at", "vibrator", "stopped", "wind", "swell from", "east", "west", "anchor", "moved", "waited", "minutes", "boulder",
        "checked by", "diver", "second charge", "valve", "slow", "m below", "deck", "water in casing", "air pressure", "low", "restarted", "crew", "shift", "surveyor told", "antenna", "blocked",
        "cleaned", "barge", "tug", "alongside", "until", "resumed at", "tip", "level", "read again", "soft", "clay", "gravel", "plug", "blown out", "repeated", "stroke", "uneven",
    ];

    private static double Ogr2Ogr(IEnumerable<string> arguments)
    {
        Stopwatch watch = Stopwatch.StartNew();
        using Process process = Process.Start(new ProcessStartInfo("ogr2ogr", arguments) { RedirectStandardError = true })!;
        string errors = process.StandardError.ReadToEnd();
        process.WaitForExit();
        return process.ExitCode == 0 ? watch.Elapsed.TotalSeconds : throw new InvalidOperationException($"ogr2ogr: {errors}");
    }

    private static string Text(FormattableString line) => line.ToString(CultureInfo.InvariantCulture);

    /// <summary>Looks at the managed heap every few milliseconds and keeps the most it held.</summary>
    private sealed class PeakMemory : IDisposable
    {
        private readonly Timer timer;
        private long most;

        public PeakMemory() => timer = new Timer(_ => Look(), null, 0, 5);

        public long Most
        {
            get
            {
                Look();
                return most;
            }
        }

        public void Dispose() => timer.Dispose();

        private void Look()
        {
            long now = GC.GetTotalMemory(forceFullCollection: false);
            if (now > most) most = now;
        }
    }
}
