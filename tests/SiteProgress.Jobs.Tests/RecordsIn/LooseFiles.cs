using System.Diagnostics;
using System.Globalization;
using System.Text;
using Shouldly;
using SiteProgress.Jobs.RecordsIn;
using SiteProgress.TestSupport;

namespace SiteProgress.Jobs.Tests.RecordsIn;

/// <summary>Files read and matched against the demo's invented site without any store.</summary>
internal sealed class LooseFiles : IDisposable
{
    // ETRS89 / UTM zone 32N by its defining parameters (EPSG dataset, operation method 9807).
    public const string Utm32 = """
        PROJCS["ETRS89 / UTM zone 32N",GEOGCS["ETRS89",DATUM["European_Terrestrial_Reference_System_1989",SPHEROID["GRS 1980",6378137,298.257222101]],PRIMEM["Greenwich",0],
        UNIT["degree",0.0174532925199433]],PROJECTION["Transverse_Mercator"],PARAMETER["latitude_of_origin",0],PARAMETER["central_meridian",9],
        PARAMETER["scale_factor",0.9996],PARAMETER["false_easting",500000],PARAMETER["false_northing",0],UNIT["metre",1],AUTHORITY["EPSG","25832"]]
        """;

    public const string Header = "Record,Pile No,Barge,Casing,Set-up,Start,End,X end [m],Y end [m],Top level [m],Tip level [m],Fix,Outcome";

    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("siteprogress-loose-");

    public string Write(string name, string text)
    {
        File.WriteAllText(In(name), text, new UTF8Encoding(false));
        return In(name);
    }

    public string In(string name) => Path.Combine(folder.FullName, name);

    public static string Seed(string name) => Path.Combine(Checkout.Folder, "seed-data", name);

    /// <summary>Files read after the demo's schedule of zone A.</summary>
    public IReadOnlyList<FileRead> Read(UploadChoices? choices, params string[] paths) => ReadDesign(Seed("planned-piles-zone-a.csv"), null, choices, paths);

    public IReadOnlyList<FileRead> ReadDesign(string design, UploadChoices? designChoices, UploadChoices? choices, params string[] paths)
    {
        (IReadOnlyList<FileRead>? files, string? refusal) = new ReadFiles(TimeProvider.System).Run(
            Seed("site.json"), Seed("control-points.csv"), Write("crs.wkt", Utm32), design, designChoices ?? UploadChoices.AsTheFileSays, paths,
            choices ?? UploadChoices.AsTheFileSays, Xunit.TestContext.Current.CancellationToken);
        return files.ShouldNotBeNull(refusal);
    }

    /// <summary>The one suspicion of a text of installations; null where there is none.</summary>
    public string? SuspicionOf(string text, params string[] before)
        => Read(null, [.. before.Select((one, index) => Write($"before-{index}.csv", one)), Write("built.csv", text)])[^1].Suspicions switch
        {
            [] => null,
            [{ } only] => only,
            var more => throw new ShouldAssertException(string.Join('\n', more)),
        };

    public void Dispose() => folder.Delete(recursive: true);

    /// <summary>Coordinates put from one system into another by cs2cs of PROJ.</summary>
    public static (double First, double Second)[] Cs2Cs(string from, string to, IEnumerable<(double First, double Second)> points)
    {
        using Process process = Process.Start(new ProcessStartInfo("cs2cs", ["-f", "%.4f", from, to]) { RedirectStandardInput = true, RedirectStandardOutput = true })!;
        foreach ((double first, double second) in points) process.StandardInput.WriteLine(FormattableString.Invariant($"{first} {second}"));
        process.StandardInput.Close();
        string[] lines = process.StandardOutput.ReadToEnd().Split('\n', StringSplitOptions.RemoveEmptyEntries);
        process.WaitForExit();
        return [.. lines.Select(line => line.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)).Select(cells => (Number(cells[0]), Number(cells[1])))];
    }

    public static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}

/// <summary>Piles of the demo's zone A as they might be built: three casings a set-up, with noise of a chosen kind.</summary>
internal sealed class BuiltPiles
{
    private readonly (string Number, double X, double Y)[] design = [.. File.ReadLines(LooseFiles.Seed("planned-piles-zone-a.csv")).Skip(1)
        .Select(line => line.Split(',')).Select(cells => (cells[0], LooseFiles.Number(cells[2]), LooseFiles.Number(cells[3])))];

    public int Count { get; init; } = 60;

    public int From { get; init; }

    public int Seed { get; init; } = 1;

    public DateTime FirstStart { get; init; } = new(2026, 3, 10, 7, 0, 0);

    public Func<Random, Random, double> Noise { get; init; } = (_, each) => 0.03 * Normal(each);

    public Func<double, double, (double X, double Y)> Place { get; init; } = (x, y) => (x, y);

    public Func<double, double> Tip { get; init; } = tip => tip;

    public Func<string, string> Name { get; init; } = number => number;

    public Func<DateTime, DateTime> Clock { get; init; } = time => time;

    public string ToText(string header = LooseFiles.Header)
    {
        StringBuilder text = new(header + "\n");
        Random each = new(Seed);
        for (int index = 0; index < Count; index++)
        {
            int setUp = index / 3;
            Random shared = new(Seed + (1000 * (setUp + 1)));
            (string number, double x, double y) = design[From + index];
            (double atX, double atY) = Place(x + Noise(shared, each), y + Noise(shared, each));
            // Ten set-ups a working day from seven in the morning, an hour each.
            DateTime start = Clock(FirstStart.AddDays(setUp / 10).AddHours(setUp % 10));
            text.Append(CultureInfo.InvariantCulture, $"R{From + index},{Name(number)},Tern,{(index % 3) + 1},S{From}-{setUp},{start:yyyy-MM-dd HH:mm},{start.AddMinutes(50):yyyy-MM-dd HH:mm},{atX:0.000},{atY:0.000},{Tip(-12.5):0.00},{Tip(-28.0 - (0.1 * Math.Abs(Normal(each)))):0.00},RTK fixed,complete\n");
        }

        return text.ToString();
    }

    public static double Normal(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
