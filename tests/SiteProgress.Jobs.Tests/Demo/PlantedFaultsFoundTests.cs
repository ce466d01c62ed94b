using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;
using Shouldly;
using SiteProgress.Core.Bias;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Deviations;
using SiteProgress.Jobs.RecordsIn;
using SiteProgress.Jobs.Tests.RecordsIn;
using Xunit;

namespace SiteProgress.Jobs.Tests.Demo;

/// <summary>
/// Every line of the demo's list of planted faults (seed-data/truth/truth-faults.json), by its records and piles: each is found and
/// named as what it is, and nothing else is named so. A fault that is new in the list fails until it is looked for here.
/// </summary>
[Collection(DemoCollection.Name)]
public sealed class PlantedFaultsFoundTests(DemoSite demo)
{
    private static readonly JsonElement[] Faults = ReadFaults();

    public static TheoryData<int> Lines => [.. Enumerable.Range(0, Faults.Length)];

    [Theory]
    [MemberData(nameof(Lines))]
    public async Task A_planted_fault_is_found_and_named(int line)
    {
        JsonElement fault = Faults[line];
        switch (fault.GetProperty("code").GetString())
        {
            case "casing-offset": await OneCasingIsClaimedAsync(fault); break;
            case "common-offset": await OneBargeStandsOutInChecksAsync(fault); break;
            case "wrong-frame": (await RecordsAsync(MatchOutcome.WrongFrame)).ShouldBe(Texts(fault, "records"), ignoreOrder: true); break;
            case "swapped-number": (await RecordsAsync(MatchOutcome.SwappedNumbers)).ShouldBe(Texts(fault, "records"), ignoreOrder: true); break;
            case "duplicate-same-record": await IsRepeatedAsync(Texts(fault, "records").Single()); break;
            case "duplicate-other-record": await IsRepeatedAsync(Texts(fault, "records")[1]); break;
            case "tip-short": await FindingAsync(fault, "Tip"); break;
            case "sand-short": await FindingAsync(fault, "Sand"); break;
            case "missed-pile": await AreOutstandingAsync(Texts(fault, "piles")); break;
            case "no-tide": TheShiftIsSuspected(fault); break;
            case var code: throw new ShouldAssertException($"The fault \u201C{code}\u201D is in the list and is looked for nowhere.");
        }
    }

    [Fact]
    public async Task Nothing_else_is_named_a_swap_a_wrong_frame_or_a_repetition_or_lacks_tip_or_sand()
    {
        (await RecordsAsync(MatchOutcome.ShiftedAlongRow)).ShouldBeEmpty();
        (await RecordsAsync(MatchOutcome.AxesExchanged)).ShouldBeEmpty();
        (await RecordsAsync(MatchOutcome.BatchShifted)).ShouldBeEmpty();
        (await RecordsAsync(MatchOutcome.NumberContradictsPosition)).ShouldBeEmpty();
        (await RecordsAsync(MatchOutcome.ClaimedTwice)).ShouldBeEmpty();
        (await RecordsAsync(MatchOutcome.DuplicateRecord)).Count.ShouldBe(Of("duplicate-same-record").Length + Of("duplicate-other-record").Length);
        // One pile has sand enough by its record; its log shows a thin place.
        (await PilesAsync("'Sand' = any (string_to_array(findings, ' '))"))
            .ShouldBe([.. Of("sand-short").SelectMany(one => Texts(one, "piles")), .. PilesOf("truth-logs.csv", "fault", "pile", fault => fault == "thin-place")], ignoreOrder: true);
        // Levels read without the tide are wrong, so some of that shift's piles seem short as well; a casing that was refused or interrupted stopped short indeed.
        string[] noTide = [.. Of("no-tide").SelectMany(one => Texts(one, "piles"))];
        (await PilesAsync("findings like '%Tip%'")).Except(noTide).Except(PilesOf("truth.csv", "outcome", "recorded_pile", outcome => outcome != "complete")).ShouldBe(Of("tip-short").SelectMany(one => Texts(one, "piles")), ignoreOrder: true);
    }

    private async Task OneCasingIsClaimedAsync(JsonElement fault)
    {
        BiasClaim claim = (await BiasAsync()).Findings.Claims.ShouldHaveSingleItem();

        claim.Named.Cause.ShouldBe(new Cause(CauseKind.CasingOffset, fault.GetProperty("barge").GetString(), fault.GetProperty("casing").GetInt32()));
        claim.SizeMetres.ShouldBe(fault.GetProperty("sizeMetres").GetDouble(), 0.03);
    }

    private async Task OneBargeStandsOutInChecksAsync(JsonElement fault)
    {
        CheckFinding check = (await BiasAsync()).Checks.Where(one => one.StandsOut).ShouldHaveSingleItem();

        check.Barge.ShouldBe(fault.GetProperty("barge").GetString());
        Math.Sqrt((check.ForwardMetres * check.ForwardMetres) + (check.StarboardMetres * check.StarboardMetres)).ShouldBe(fault.GetProperty("sizeMetres").GetDouble(), 0.03);
    }

    private async Task IsRepeatedAsync(string record) => (await RecordsAsync(MatchOutcome.DuplicateRecord)).ShouldContain(record);

    private async Task FindingAsync(JsonElement fault, string check)
    {
        string pile = Texts(fault, "piles").Single();

        (await PilesAsync($"number = '{pile}' and findings like '%{check}%' and state = {(int)PileState.Finding}")).ShouldBe([pile]);
    }

    private async Task AreOutstandingAsync(string[] piles)
        => (await PilesAsync($"state = {(int)PileState.Outstanding} and number in ({string.Join(", ", piles.Select(pile => $"'{pile}'"))})")).ShouldBe(piles, ignoreOrder: true);

    private static void TheShiftIsSuspected(JsonElement fault)
    {
        using LooseFiles files = new();
        string barge = fault.GetProperty("barge").GetString()!, day = fault.GetProperty("firstDay").GetString()!;
        string[] built = [.. Directory.GetFiles(LooseFiles.Seed("as-built")).Where(path => path.Contains(barge, StringComparison.OrdinalIgnoreCase)).Order(StringComparer.Ordinal)];

        string told = files.Read(null, [LooseFiles.Seed("tide.csv"), .. built]).SelectMany(file => file.Suspicions)
            .Where(one => one.Contains("without the water level", StringComparison.Ordinal)).ShouldHaveSingleItem();

        told.ShouldStartWith($"Tip levels of {barge} on {day}, ");
        told.ShouldContain(FormattableString.Invariant($"those of {Texts(fault, "records").Length} piles"));
    }

    private async Task<BiasView> BiasAsync()
        => await ActivatorUtilities.CreateInstance<ReviewBias>(demo.Services).RunAsync(await demo.PermitAsync(Role.Surveyor), TestContext.Current.CancellationToken);

    private async Task<IReadOnlyList<string>> RecordsAsync(MatchOutcome outcome)
        => (await demo.OneAsync<string>($"select coalesce(string_agg(record_id, ' ' order by sequence), '') from derived.installation where match = {(int)outcome}")).Split(' ', StringSplitOptions.RemoveEmptyEntries);

    private async Task<IReadOnlyList<string>> PilesAsync(string where)
        => (await demo.OneAsync<string>($"select coalesce(string_agg(number, ' ' order by number), '') from derived.pile where {where}")).Split(' ', StringSplitOptions.RemoveEmptyEntries);

    private static JsonElement[] Of(string code) => [.. Faults.Where(one => one.GetProperty("code").GetString() == code)];

    private static string[] Texts(JsonElement fault, string property) => [.. fault.GetProperty(property).EnumerateArray().Select(one => one.GetString()!)];

    private static IEnumerable<string> PilesOf(string file, string column, string pileColumn, Func<string, bool> isMeant)
    {
        string[][] rows = [.. File.ReadLines(Path.Combine(DemoSite.SeedFolder, "truth", file)).Where(line => line[0] != '#').Select(line => line.Split(','))];
        (int judged, int pile) = (Array.IndexOf(rows[0], column), Array.IndexOf(rows[0], pileColumn));
        return rows.Skip(1).Where(row => isMeant(row[judged])).Select(row => row[pile]);
    }

    private static JsonElement[] ReadFaults()
    {
        using JsonDocument truth = JsonDocument.Parse(File.ReadAllText(Path.Combine(DemoSite.SeedFolder, "truth", "truth-faults.json")));
        return [.. truth.RootElement.GetProperty("faults").EnumerateArray().Select(one => one.Clone())];
    }
}
