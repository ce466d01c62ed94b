using System.Text;
using System.Text.Json;
using Shouldly;
using Xunit;

namespace SiteProgress.DemoGenerator.Tests;

public class PlantedFaultsTests
{
    private static readonly IReadOnlyList<IReadOnlyDictionary<string, string>> Truth = SeedData.Rows("truth/truth.csv");

    private static readonly Dictionary<string, IReadOnlyDictionary<string, string>> ByRecord = Truth.ToDictionary(row => row["record"]);

    private static readonly Dictionary<string, JsonElement> Zones =
        SeedData.Json("site.json").GetProperty("zones").EnumerateArray().ToDictionary(zone => zone.GetProperty("code").GetString()!);

    [Fact]
    public void Plovers_third_casing_is_recorded_200_mm_off_in_exactly_the_eight_listed_days()
    {
        var fault = SeedData.Faults("casing-offset").Single();
        var (first, last) = (fault.GetProperty("firstDay").GetString()!, fault.GetProperty("lastDay").GetString()!);
        var rows = SeedData.AsBuilt("plover").SelectMany(SeedData.Rows).Where(row => row["casing"] == "3" && row["pile no"][0] != 'T' && ByRecord.ContainsKey(row["record"])).ToList();
        var inside = rows.Where(row => Within(ByRecord[row["record"]]["working day"], first, last)).ToList();
        inside.Select(row => row["record"]).ShouldBe(SeedData.Texts(fault, "records"), ignoreOrder: true);
        inside.Select(row => ByRecord[row["record"]]["working day"]).Distinct().Count().ShouldBeInRange(6, 8);
        var (forward, starboard) = MeanInShip(inside);
        forward.ShouldBe(0.16, 0.006);
        starboard.ShouldBe(-0.12, 0.006);
        Math.Sqrt((forward * forward) + (starboard * starboard)).ShouldBe(fault.GetProperty("sizeMetres").GetDouble(), 0.008);
        var (forwardElse, starboardElse) = MeanInShip([.. rows.Except(inside)]);
        Math.Abs(forwardElse).ShouldBeLessThan(0.006);
        Math.Abs(starboardElse).ShouldBeLessThan(0.006);
        CountWorkingDays(first, last).ShouldBe(8);
    }

    [Fact]
    public void Curlews_common_offset_shows_in_check_measurements_and_nowhere_in_its_deviations()
    {
        var fault = SeedData.Faults("common-offset").Single();
        var checks = SeedData.Rows("check-measurements.csv").Where(check => check["barge"] == "Curlew").ToList();
        var sizes = checks.Select(check => Math.Sqrt(
            Math.Pow(SeedData.Number(check["x recorded"]) - SeedData.Number(check["x measured"]), 2)
            + Math.Pow(SeedData.Number(check["y recorded"]) - SeedData.Number(check["y measured"]), 2))).ToList();
        checks.Count.ShouldBeGreaterThanOrEqualTo(18);
        sizes.Average().ShouldBe(fault.GetProperty("sizeMetres").GetDouble(), 0.015);
        fault.GetProperty("steersBy").GetString().ShouldBe("recorded");
        var own = Truth.Where(row => row["barge"] == "Curlew" && row["outcome"] == "complete" && row["fix"] == "RTK fixed" && row["fault"].Length == 0).ToList();
        own.Average(row => SeedData.Number(row["recorded x touch down"]) - SeedData.Planned[row["true pile"]].X).ShouldBe(0, 0.01);
        own.Average(row => SeedData.Number(row["recorded y touch down"]) - SeedData.Planned[row["true pile"]].Y).ShouldBe(0, 0.01);
    }

    [Fact]
    public void Each_of_the_two_swapped_records_lies_at_the_others_pile()
    {
        var records = SeedData.Texts(SeedData.Faults("swapped-number").Single(), "records");
        var (one, two) = (ByRecord[records[0]], ByRecord[records[1]]);
        one["recorded pile"].ShouldBe(two["true pile"]);
        two["recorded pile"].ShouldBe(one["true pile"]);
        foreach (var row in new[] { one, two })
            SeedData.Planned.MinBy(pile => Distance(row, pile.Value)).Key.ShouldBe(row["true pile"]);
        Truth.Count(row => row["true pile"] != row["recorded pile"]).ShouldBe(2);
    }

    [Fact]
    public void One_row_comes_twice_word_for_word_and_one_under_another_identifier()
    {
        var same = SeedData.Texts(SeedData.Faults("duplicate-same-record").Single(), "records").Single();
        var lines = SeedData.AsBuilt("tern").SelectMany(LinesOf).Where(line => line.StartsWith(same + ",", StringComparison.Ordinal)).Select(line => line.Replace(" ,", ",")).ToList();
        lines.Count.ShouldBe(2);
        lines[0].ShouldBe(lines[1]);
        SeedData.AsBuilt("tern").Count(name => LinesOf(name).Any(line => line.StartsWith(same + ",", StringComparison.Ordinal))).ShouldBe(2);
        var pair = SeedData.Texts(SeedData.Faults("duplicate-other-record").Single(), "records");
        var bodies = pair.Select(record => SeedData.AsBuilt("plover").SelectMany(LinesOf).Single(line => line.StartsWith(record + ";", StringComparison.Ordinal))[record.Length..]).ToList();
        bodies[0].ShouldBe(bodies[1]);
        pair[0].ShouldNotBe(pair[1]);
    }

    [Fact]
    public void Every_other_record_comes_once()
    {
        var all = new[] { "tern", "plover", "curlew" }.SelectMany(SeedData.AsBuilt).SelectMany(SeedData.Rows).Select(row => row["record"]).ToList();
        all.Count.ShouldBe(Truth.Count + 2);
        all.Distinct().Count().ShouldBe(Truth.Count + 1);
    }

    [Fact]
    public void Exactly_the_listed_morning_of_Tern_is_written_in_projected_coordinates()
    {
        var fault = SeedData.Faults("wrong-frame").Single();
        var wrong = SeedData.AsBuilt("tern").Concat(SeedData.AsBuilt("curlew")).SelectMany(SeedData.Rows).Where(row => SeedData.Number(row["x touch-down"]) > 100_000).ToList();
        wrong.Select(row => row["record"]).ShouldBe(SeedData.Texts(fault, "records"), ignoreOrder: true);
        wrong.Count.ShouldBeGreaterThanOrEqualTo(6);
        foreach (var row in wrong)
        {
            var (x, y) = SeedData.FromProjected(SeedData.Number(row["x touch-down"]), SeedData.Number(row["y touch-down"]));
            var (planX, planY) = SeedData.Planned[row["pile no"]];
            Math.Sqrt(Math.Pow(x - planX, 2) + Math.Pow(y - planY, 2)).ShouldBeLessThan(0.4);
        }
    }

    [Fact]
    public void Exactly_the_listed_piles_are_short_of_tip_level_by_the_listed_size()
    {
        var faults = SeedData.Faults("tip-short");
        faults.Count.ShouldBe(12);
        foreach (var fault in faults)
        {
            var row = ByRecord[SeedData.Texts(fault, "records").Single()];
            var by = SeedData.Number(row["recorded tip"]) - Zones[row["true pile"][..1]].GetProperty("tipLevelMetres").GetDouble();
            by.ShouldBe(fault.GetProperty("sizeMetres").GetDouble(), 0.006);
            by.ShouldBeInRange(0.4, 1.5);
        }

        var listed = faults.SelectMany(fault => SeedData.Texts(fault, "records")).ToHashSet();
        Truth.Where(row => Ordinary(row) && Zones[row["true pile"][..1]].TryGetProperty("tipLevelMetres", out var tip) && SeedData.Number(row["recorded tip"]) > tip.GetDouble() + 0.2)
            .Select(row => row["record"]).ShouldBe(listed, ignoreOrder: true);
    }

    [Fact]
    public void Exactly_the_listed_piles_are_short_of_sand_by_the_listed_share()
    {
        var faults = SeedData.Faults("sand-short");
        faults.Count.ShouldBe(10);
        var short_ = Truth.Where(row => Ordinary(row) && SandRatio(row) < 0.95).ToDictionary(row => row["record"], SandRatio);
        short_.Keys.ShouldBe(faults.SelectMany(fault => SeedData.Texts(fault, "records")), ignoreOrder: true);
        foreach (var fault in faults)
            (1 - short_[SeedData.Texts(fault, "records").Single()]).ShouldBe(fault.GetProperty("sizeRatio").GetDouble(), 0.006);
    }

    [Fact]
    public void Three_piles_are_missed_and_all_their_neighbours_built()
    {
        var missed = SeedData.Texts(SeedData.Faults("missed-pile").Single(), "piles");
        missed.Count.ShouldBe(3);
        var built = Truth.Where(row => row["outcome"] == "complete").Select(row => row["true pile"]).ToHashSet();
        var named = new[] { "tern", "plover", "curlew" }.SelectMany(SeedData.AsBuilt).SelectMany(SeedData.Rows).Select(row => row["pile no"]).ToHashSet();
        foreach (var number in missed)
        {
            named.ShouldNotContain(number);
            var (x, y) = SeedData.Planned[number];
            var around = SeedData.Planned.Where(pile => pile.Key != number && Math.Abs(pile.Value.X - x) < 2.2 && Math.Abs(pile.Value.Y - y) < 2.2).ToList();
            around.Count.ShouldBe(8);
            around.ShouldAllBe(pile => built.Contains(pile.Key));
        }
    }

    [Fact]
    public void The_levels_of_one_shift_differ_from_the_truth_by_the_water_level()
    {
        var fault = SeedData.Faults("no-tide").Single();
        var tide = SeedData.Rows("tide.csv").Select(row => (Time: DateTimeOffset.Parse(row["time"], System.Globalization.CultureInfo.InvariantCulture), Level: SeedData.Number(row["water level"]))).ToList();
        var listed = SeedData.Texts(fault, "records");
        listed.Count.ShouldBeGreaterThanOrEqualTo(12);
        var rows = SeedData.AsBuilt("tern").SelectMany(SeedData.Rows).Where(row => listed.Contains(row["record"])).ToList();
        foreach (var row in rows)
        {
            var at = new DateTimeOffset(DateTime.Parse(row["end penetration"], System.Globalization.CultureInfo.InvariantCulture), TimeSpan.FromHours(2));
            var water = tide.MinBy(sample => Math.Abs((sample.Time - at).TotalMinutes)).Level;
            (SeedData.Number(ByRecord[row["record"]]["true tip"]) - SeedData.Number(row["tip level"])).ShouldBe(water, 0.13, row["record"]);
        }

        fault.GetProperty("sizeMetres").GetDouble().ShouldBeInRange(1.0, 1.4);
        Truth.Where(row => !listed.Contains(row["record"])).ShouldAllBe(row => Math.Abs(SeedData.Number(row["true tip"]) - SeedData.Number(row["recorded tip"])) < 0.12);
    }

    private static IEnumerable<string> LinesOf(string name) => Encoding.UTF8.GetString(SeedData.Bytes(name)).Split('\n').Select(line => line.TrimEnd('\r'));

    /// <summary>A complete first attempt whose levels were read with the tide.</summary>
    private static bool Ordinary(IReadOnlyDictionary<string, string> row) =>
        row["outcome"] == "complete" && row["attempt"] == "1" && !row["fault"].Contains("no-tide");

    /// <summary>Sand in the pile as a share of the design sand on the built length; on the designed one where the tip is short.</summary>
    private static double SandRatio(IReadOnlyDictionary<string, string> row)
    {
        var zone = Zones[row["true pile"][..1]];
        var planned = zone.TryGetProperty("tipLevelMetres", out var tip)
            ? zone.GetProperty("topLevelMetres").GetDouble() - tip.GetDouble()
            : zone.GetProperty("leastLengthMetres").GetDouble();
        var length = Math.Max(planned, SeedData.Number(row["true top"]) - SeedData.Number(row["true tip"]));
        var factor = zone.GetProperty("sandSource").GetString() == "Long Shoal" ? 0.82 : 0.85;
        return SeedData.Number(row["recorded sand"]) * factor / (zone.GetProperty("sandPerMetreInPile").GetDouble() * length);
    }

    private static double Distance(IReadOnlyDictionary<string, string> row, (double X, double Y) place) =>
        Math.Sqrt(Math.Pow(SeedData.Number(row["recorded x touch down"]) - place.X, 2) + Math.Pow(SeedData.Number(row["recorded y touch down"]) - place.Y, 2));

    private static bool Within(string day, string first, string last) =>
        string.CompareOrdinal(day, first) >= 0 && string.CompareOrdinal(day, last) <= 0;

    private static int CountWorkingDays(string first, string last) => SeedData.Rows("diary.csv")
        .Where(line => line["barge"] == "Plover" && Within(line["working day"], first, last))
        .GroupBy(line => line["working day"])
        .Count(day => day.All(line => line["activity"] != "rest day"));

    /// <summary>Mean of recorded minus true, turned from the site grid into the ship's frame: forward, starboard; metres.</summary>
    private static (double Forward, double Starboard) MeanInShip(IReadOnlyList<IReadOnlyDictionary<string, string>> rows)
    {
        var turned = rows.Where(row => row["fix"] == "RTK fixed").Select(row =>
        {
            var truth = ByRecord[row["record"]];
            var dx = SeedData.Number(truth["recorded x touch down"]) - SeedData.Number(truth["true x touch down"]);
            var dy = SeedData.Number(truth["recorded y touch down"]) - SeedData.Number(truth["true y touch down"]);
            var (sin, cos) = Math.SinCos((SeedData.Number(row["heading grid"]) - 33) * Math.PI / 180);
            return (Forward: (dx * sin) + (dy * cos), Starboard: (dx * cos) - (dy * sin));
        }).ToList();
        return (turned.Average(each => each.Forward), turned.Average(each => each.Starboard));
    }
}
