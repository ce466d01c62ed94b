using System.Diagnostics;
using System.Text;

namespace SiteProgress.Exchange.Tests;

/// <summary>Files written by ogr2ogr, a general tool for map files (GDAL), and by the SQLite command line.</summary>
internal sealed class OutsideTools : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("siteprogress-tools-").FullName;

    /// <summary>Three points with their attributes in UTM zone 32N, as a text that ogr2ogr reads.</summary>
    public const string Points = "Pile No,Zone,Tip level,E,N\nA-0001,A,-28.1,392796.601,6162897.289\nA-0002,A,-28.2,392798.362,6162896.145\n\u00C5-3,B,-28.3,392800.123,6162895.001\n";

    public string Path(string name) => System.IO.Path.Combine(_folder, name);

    public string Write(string name, string text)
    {
        File.WriteAllText(Path(name), text, new UTF8Encoding(false));
        return Path(name);
    }

    /// <summary>Points of a CSV file in any format that ogr2ogr writes.</summary>
    public Stream Ogr(string format, string name, params string[] options)
    {
        var source = Write("points.csv", Points);
        Run("ogr2ogr", ["-f", format, Path(name), source, "-oo", "X_POSSIBLE_NAMES=E", "-oo", "Y_POSSIBLE_NAMES=N", "-oo", "KEEP_GEOM_COLUMNS=NO", "-oo", "AUTODETECT_TYPE=YES", .. options]);
        return new MemoryStream(File.ReadAllBytes(Path(name)));
    }

    public static void Run(string program, IEnumerable<string> arguments)
    {
        var start = new ProcessStartInfo(program) { RedirectStandardError = true, RedirectStandardOutput = true };
        foreach (var argument in arguments)
            start.ArgumentList.Add(argument);
        using var process = Process.Start(start)!;
        var errors = process.StandardError.ReadToEndAsync();
        process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        process.ExitCode.ShouldBe(0, $"{program}: {errors.Result}");
    }

    /// <summary>Choices of a reader that may put a database on the disk, here.</summary>
    public ReadingChoices Choices => Given.Choices with
    {
        ProjectedCrs = 25832,
        PileNumberCharacters = "A-Z\u00C50-9-",
        CopyToDisk = bytes =>
        {
            var path = Path(Guid.NewGuid().ToString("N"));
            using var copy = File.Create(path);
            bytes.CopyTo(copy);
            return path;
        },
    };

    public void Dispose() => Directory.Delete(_folder, recursive: true);
}
