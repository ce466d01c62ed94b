using System.Globalization;
using Microsoft.Extensions.DependencyInjection;
using Shouldly;
using SiteProgress.Core.Logs;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Attachments;
using Xunit;

namespace SiteProgress.Jobs.Tests.Demo;

/// <summary>What the demo's logs tell against the truth its generator states, and against the as-built record of the same pile.</summary>
[Collection(DemoCollection.Name)]
public sealed class DemoLogTests(DemoSite demo)
{
    private static readonly Dictionary<string, Dictionary<string, string>> Truth = ReadTruth();

    public static TheoryData<string> Piles => [.. Truth.Keys];

    [Theory]
    [MemberData(nameof(Piles))]
    public async Task A_log_of_the_demo_agrees_with_the_record_of_its_pile_and_with_the_truth(string pile)
    {
        Dictionary<string, string> truth = Truth[pile];
        PileLogView view = await ReadAsync(pile);
        LogInterpretation told = view.Reading;

        told.Refusal.ShouldBeNull();
        if (RawFiles.RecordsOf("no-tide").Contains(truth["record"]))
        {
            // The record was written without the tide; the log says where the casing really was.
            view.Notes.ShouldContain(note => note.StartsWith("The tip is at", StringComparison.Ordinal));
        }
        else
        {
            string of = $"from derived.pile where number = '{pile}'";
            view.Notes.ShouldAllBe(note => note.Contains("stands on", StringComparison.Ordinal));
            told.BaseLevelMetres!.Value.ShouldBe(await demo.OneAsync<double>($"select tip from derived.installation where record_id = '{truth["record"]}' limit 1"), 0.12);
            told.TopLevelMetres!.Value.ShouldBe(await demo.OneAsync<double>($"select as_built_top {of}"), 0.12);
        }

        told.BaseLevelMetres!.Value.ShouldBe(Number(truth["base"]), 0.05);
        told.TopLevelMetres!.Value.ShouldBe(Number(truth["top"]), 0.08);
        told.SandLeftCubicMetres!.Value.ShouldBe(Number(truth["sand"]), 0.02 * Number(truth["sand"]));
        // The logger slept over one re-drive of the pile with a gap.
        told.Cycles.Count.ShouldBe((int)Number(truth["cycles"]) - (truth["fault"] == "record-gap" ? 1 : 0));
        (told.OpenHangUpMetres > 0).ShouldBe(truth["hang_up_closed"] == "no");
    }

    [Theory]
    [InlineData("hang-up", LogEventKind.HangUp)]
    [InlineData("hang-up-repaired", LogEventKind.HangUp)]
    [InlineData("valve-closed", LogEventKind.ValveClosed)]
    [InlineData("air-lost", LogEventKind.AirPressureLow)]
    [InlineData("soil-in-casing", LogEventKind.SoilPlug)]
    [InlineData("record-gap", LogEventKind.RecordGap)]
    [InlineData("sensor-stuck", LogEventKind.SensorStuck)]
    public async Task A_planted_fault_is_an_event_of_its_log_and_of_no_log_without_a_fault(string fault, LogEventKind kind)
    {
        foreach ((string pile, Dictionary<string, string> truth) in Truth.Where(one => one.Value["fault"] == fault || one.Value["fault"].Length == 0))
            (await ReadAsync(pile)).Reading.Events.Any(one => one.Kind == kind).ShouldBe(truth["fault"] == fault, pile);
    }

    [Fact]
    public async Task The_thin_place_is_the_least_metre_of_its_pile()
    {
        (string pile, Dictionary<string, string> truth) = Truth.Single(one => one.Value["fault"] == "thin-place");

        LeastDiameter least = (await ReadAsync(pile)).Reading.Least.ShouldNotBeNull();

        Number(truth["least_metre_diameter"]).ShouldBeInRange(least.LowMetres, least.HighMetres);
        least.FromLevelMetres.ShouldBeLessThan(-19);
        least.ToLevelMetres.ShouldBeGreaterThan(-21);
    }

    private async Task<PileLogView> ReadAsync(string pile) => (await demo.Services.GetRequiredService<ReadPileLog>().RunAsync(
        await demo.PermitAsync(Role.OwnersRepresentative), pile, TestContext.Current.CancellationToken)).View.ShouldNotBeNull();

    /// <summary>Truth by pile, of all installations that a pile stands on: those whose number or frame is wrong wait for a decision.</summary>
    private static Dictionary<string, Dictionary<string, string>> ReadTruth()
    {
        string[] lines = [.. File.ReadAllLines(Path.Combine(DemoSite.SeedFolder, "truth", "truth-logs.csv")).Where(line => line[0] != '#')];
        string[] header = lines[0].Split(',');
        HashSet<string> left = [.. RawFiles.RecordsOf("swapped-number"), .. RawFiles.RecordsOf("wrong-frame")];
        return lines.Skip(1).Select(line => header.Zip(line.Split(',')).ToDictionary(pair => pair.First, pair => pair.Second))
            .Where(row => !left.Contains(row["record"])).ToDictionary(row => row["pile"]);
    }

    private static double Number(string cell) => double.Parse(cell, CultureInfo.InvariantCulture);
}
