using System.Diagnostics;
using System.Text.Json;
using Shouldly;
using SiteProgress.TestSupport;
using SiteProgress.Web.Commands;
using Xunit;

namespace SiteProgress.Web.Tests.Shell;

/// <summary>Outside files against a design, from a shell and without a store; the answer is JSON.</summary>
public sealed class ReadFilesCommandTests : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("siteprogress-read-");

    public void Dispose() => folder.Delete(recursive: true);

    [Fact]
    public async Task The_demos_files_are_read_and_matched_and_every_row_comes_out()
    {
        string built = Directory.GetFiles(Seed("as-built"), "*tern*").Order(StringComparer.Ordinal).First();

        (int status, JsonElement answer, string error) = await RunAsync(Seed("planned-piles-zone-a.csv"), built);

        error.ShouldBeEmpty();
        status.ShouldBe(0);
        JsonElement[] files = [.. answer.EnumerateArray()];
        (files[0].GetProperty("content").GetString(), files[1].GetProperty("content").GetString()).ShouldBe(("planned-piles", "installations"));
        int rows = File.ReadLines(built).Count(line => line.Length > 0 && line[0] != '#') - 1;
        files[1].GetProperty("rows").GetArrayLength().ShouldBe(rows);
        files[1].GetProperty("matches").EnumerateArray().Count(match => match.GetProperty("outcome").GetString() == "matched").ShouldBeGreaterThan(rows / 2);
        files[1].GetProperty("assumptions").EnumerateArray().First().GetString()!.ShouldStartWith("Read as ");
    }

    [Fact]
    public async Task A_workbook_of_another_program_matches_as_its_text_does_and_problems_set_the_exit_status()
    {
        string text = Path.Combine(folder.FullName, "built.csv");
        await File.WriteAllTextAsync(text, "Record,Pile No,Barge,X [m],Y [m],Outcome\nR1,A-0001,Tern,1000.02,2000.01,complete\nR2,A-0002,Tern,1002.12,2000.01,complete\nR3,A-0003,Sloop,1004.2,2000,complete\n", TestContext.Current.CancellationToken);
        string book = Path.Combine(folder.FullName, "built.xlsx");
        await Process.Start("ogr2ogr", ["-f", "XLSX", book, text, "-oo", "AUTODETECT_TYPE=YES"]).WaitForExitAsync(TestContext.Current.CancellationToken);

        (int status, JsonElement answer, _) = await RunAsync(Seed("planned-piles-zone-a.csv"), text, book);

        status.ShouldBe(1);
        JsonElement[] files = [.. answer.EnumerateArray()];
        files[2].GetProperty("problems").EnumerateArray().Single().GetProperty("expected").GetString()!.ShouldStartWith("a barge of this site");
        // The second file says what the first said: that is told, and nothing is counted twice.
        files[1].GetProperty("matchCounts").GetProperty("matched").GetInt32().ShouldBe(2);
        files[2].GetProperty("matchCounts").GetProperty("duplicateRecord").GetInt32().ShouldBe(2);
    }

    [Fact]
    public async Task What_the_files_do_not_say_is_said_as_settings()
    {
        string text = Path.Combine(folder.FullName, "design.csv");
        await File.WriteAllTextAsync(text, "Mark,X [m],Y [m]\nA-1,1000,2000\n", TestContext.Current.CancellationToken);

        (int status, JsonElement answer, string error) = await RunAsync(text, "--design.content", "planned-piles", "--design.header=1", "--design.c0", "pileno", "--design.v.zone", "A");

        error.ShouldBeEmpty();
        (status, answer[0].GetProperty("rowsGood").GetInt32()).ShouldBe((0, 1));
    }

    [Fact]
    public async Task A_missing_file_is_one_sentence()
    {
        (int status, _, string error) = await RunAsync(Path.Combine(folder.FullName, "nowhere.csv"));

        (status, error.Trim()).ShouldBe((1, $"There is no file {Path.Combine(folder.FullName, "nowhere.csv")}."));
    }

    private static string Seed(string name) => Path.Combine(Checkout.Folder, "seed-data", name);

    private async Task<(int Status, JsonElement Answer, string Error)> RunAsync(params string[] arguments)
    {
        string wkt = Path.Combine(folder.FullName, "crs.wkt");
        using (Process process = Process.Start(new ProcessStartInfo("gdalsrsinfo", ["-o", "wkt1", "EPSG:25832"]) { RedirectStandardOutput = true })!)
            await File.WriteAllTextAsync(wkt, await process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken), TestContext.Current.CancellationToken);
        using StringWriter output = new(), error = new();
        int status = await CommandLine.RunAsync(["read-files", Seed("site.json"), Seed("control-points.csv"), wkt, .. arguments], output, error);
        return (status, output.ToString() is { Length: > 0 } text ? JsonDocument.Parse(text).RootElement : default, error.ToString());
    }
}
