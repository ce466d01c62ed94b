using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Text.Json;
using Shouldly;
using SiteProgress.TestSupport;
using SiteProgress.Web.Commands;
using Xunit;

namespace SiteProgress.Web.Tests.Shell;

/// <summary>The program itself reads logs from a shell: a CSV in, JSON out, without a store or a site.</summary>
public sealed class ReadLogCommandTests : IDisposable
{
    private const int Rises = 8;

    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("siteprogress-read-log-");

    public void Dispose() => folder.Delete(recursive: true);

    // Common practice of the method, worked out by hand from the areas: with a casing of 1.2 m, a pile of 2.0 m and C = 0.8
    // each metre of pile wants a withdrawal of (2.0 / 1.2)^2 / 0.8 = 3.4722 m.
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task A_log_packed_or_not_comes_out_as_cycles_and_diameters(bool packed)
    {
        CommandResult result = await RunAsync("read-log", Write("log.csv", Drawn(), packed), "--casing-diameter", "1.2", "--volume-factor", "0.8", "--design-diameter", "2.0");

        result.Problems.ShouldBeEmpty();
        result.Status.ShouldBe(0);
        using JsonDocument json = JsonDocument.Parse(result.Output);
        JsonElement log = json.RootElement.EnumerateArray().ShouldHaveSingleItem();
        log.GetProperty("pileNumber").GetString().ShouldBe("A-001");
        log.GetProperty("sha256").GetString()!.Length.ShouldBe(64);
        JsonElement told = log.GetProperty("interpretation");
        told.GetProperty("cycles").GetArrayLength().ShouldBe(Rises);
        told.GetProperty("baseLevelMetres").GetDouble().ShouldBe(-25, 0.05);
        told.GetProperty("least").GetProperty("diameterMetres").GetDouble().ShouldBe(2.0, 0.03);
        double left = Math.PI / 4 * 1.2 * 1.2 * Rises * 3.4722;
        told.GetProperty("sandLeftCubicMetres").GetDouble().ShouldBe(left, 0.01 * left);
    }

    [Fact]
    public async Task A_row_that_cannot_be_read_is_told_by_line_and_the_others_are_read()
    {
        string drawn = Drawn();
        int second = drawn.IndexOf('\n', drawn.IndexOf('\n', StringComparison.Ordinal) + 1) + 1;
        string broken = drawn.Insert(second, "2026-04-01T05:59:59Z,A-001,deep,30.0\n");

        CommandResult result = await RunAsync("read-log", Write("log.csv", broken, packed: false), "--casing-diameter", "1.2", "--volume-factor", "0.8");

        result.Status.ShouldBe(1);
        result.Problems.ShouldStartWith("Line 3");
        result.Problems.ShouldContain("deep");
        using JsonDocument json = JsonDocument.Parse(result.Output);
        json.RootElement[0].GetProperty("interpretation").GetProperty("cycles").GetArrayLength().ShouldBe(Rises);
    }

    [Theory]
    [InlineData("--casing-diameter, the inner diameter", new string[0])]
    [InlineData("--cut-off must be a number", new[] { "--casing-diameter", "1.2", "--cut-off", "deep" })]
    [InlineData("there is no number 'hangup'", new[] { "--casing-diameter", "1.2", "--constants", "hangup=1" })]
    [InlineData("no IANA time zone", new[] { "--casing-diameter", "1.2", "--time-zone", "Nowhere" })]
    public async Task What_is_asked_wrongly_is_said_in_one_sentence(string expected, string[] options)
    {
        CommandResult result = await RunAsync(["read-log", Write("log.csv", Drawn(), packed: false), .. options]);

        result.Status.ShouldNotBe(0);
        result.Output.ShouldBeEmpty();
        result.Problems.ShouldContain(expected);
        result.Problems.Trim().Split('\n').Length.ShouldBe(1);
    }

    /// <summary>Runs the program as a process, as a person at a shell does.</summary>
    private static Task<CommandResult> RunAsync(params string[] arguments)
        => Command.RunAsync("dotnet", [typeof(CommandLine).Assembly.Location, .. arguments], cancellation: TestContext.Current.CancellationToken);

    /// <summary>A log drawn by hand, a sample a second: down to -25 m, eight rises of a metre, out.</summary>
    private static string Drawn()
    {
        const double withdrawal = 3.4722;
        StringBuilder csv = new("Time,Pile No,Casing tip level [m],Sand above tip [m]\n");
        double level = -12, sand = 2 + (Rises * withdrawal);
        int second = 0;
        void Go(double to, double sandTo, int seconds)
        {
            for (int step = 1; step <= seconds; step++, second++)
            {
                double part = (double)step / seconds;
                double noise = 0.01 * ((second * 7919 % 5) - 2);
                csv.Append(CultureInfo.InvariantCulture, $"{new DateTime(2026, 4, 1, 6, 0, 0, DateTimeKind.Utc).AddSeconds(second):yyyy-MM-dd'T'HH:mm:ss'Z'},A-001,{level + ((to - level) * part):F3},{sand + ((sandTo - sand) * part) + noise:F3}\n");
            }

            (level, sand) = (to, sandTo);
        }

        Go(level, sand, 20);
        Go(-25, sand, 260);
        Go(-25, sand, 20);
        for (int rise = 0; rise < Rises; rise++)
        {
            double bottom = level;
            Go(bottom + withdrawal, sand - withdrawal, 69);
            Go(level, sand, 6);
            Go(bottom + 1, sand, 41);
            Go(level, sand, 10);
        }

        Go(-10, sand, 70);
        Go(-10, sand, 15);
        return csv.ToString();
    }

    private string Write(string name, string text, bool packed)
    {
        string path = Path.Combine(folder.FullName, name);
        using FileStream file = File.Create(path);
        using Stream into = packed ? new GZipStream(file, CompressionLevel.Fastest) : file;
        into.Write(Encoding.UTF8.GetBytes(text));
        return path;
    }
}
