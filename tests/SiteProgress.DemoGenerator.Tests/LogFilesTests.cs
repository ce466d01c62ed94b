using System.Globalization;
using Shouldly;
using Xunit;

namespace SiteProgress.DemoGenerator.Tests;

/// <summary>The logs against the as-built records of the same piles, and the planted faults against what the samples show.</summary>
public class LogFilesTests
{
    private static readonly IReadOnlyList<IReadOnlyDictionary<string, string>> Truth = SeedData.Rows("truth/truth-logs.csv");

    private static readonly Dictionary<string, IReadOnlyDictionary<string, string>> Records =
        SeedData.AsBuilt("tern").SelectMany(SeedData.Rows).GroupBy(row => row["record"]).ToDictionary(group => group.Key, group => group.First());

    public static TheoryData<string> Logs => [.. Truth.Select(row => row["file"])];

    [Fact]
    public void Every_log_has_its_truth_and_every_fault_is_planted_once()
    {
        SeedData.Names.Where(name => name.StartsWith("logs/", StringComparison.Ordinal)).ShouldBe(Truth.Select(row => row["file"]), ignoreOrder: true);
        Truth.Select(row => row["fault"]).Where(fault => fault.Length > 0).Order(StringComparer.Ordinal).ShouldBe(
            ["air-lost", "hang-up", "hang-up-repaired", "record-gap", "sensor-stuck", "soil-in-casing", "thin-place", "valve-closed"]);
        Truth.Count(row => row["fault"].Length == 0).ShouldBeLessThanOrEqualTo(20);
        Records[Truth[0]["record"]]["start"].ShouldStartWith("2026-05-29");
    }

    [Theory]
    [MemberData(nameof(Logs))]
    public void A_log_tells_the_pile_of_its_record(string file)
    {
        var truth = Truth.Single(row => row["file"] == file);
        var record = Records[truth["record"]];
        var samples = SeedData.Rows(file);
        samples.Select(row => (row["record"], row["pile no"], row["barge"], row["casing"])).Distinct().ShouldHaveSingleItem()
            .ShouldBe((record["record"], record["pile no"], record["barge"], record["casing"]));
        file.ShouldBe("logs/" + record["pile no"] + ".csv.gz");

        var begin = At(samples[0]["time"]);
        (begin.AddSeconds(Of(truth, "end of penetration seconds")) - Local(record["end penetration"])).TotalMinutes.ShouldBe(0, 1);
        (At(samples[^1]["time"]) - Local(record["end"])).TotalMinutes.ShouldBe(0, 1);
        begin.ShouldBeLessThan(Local(record["start"]));
        // From the record's begin the casing goes down: half a minute later it is deeper than it was until then.
        var level = samples.Select(row => Of(row, "casing tip level")).ToList();
        var start = samples.ToList().FindIndex(row => At(row["time"]) >= Local(record["start"]));
        level[start + 30].ShouldBeLessThan(level.Take(start).Min() - 0.2);

        // Recorded levels scatter by 0.02 m, the gauge by 0.01 m: four standard deviations, and the least of many samples.
        level.Min().ShouldBe(Of(record, "tip level"), 0.14);
        Of(truth, "base").ShouldBe(Of(record, "tip level"), 0.08);
        Of(truth, "top").ShouldBe(Of(record, "top level"), 0.08);
        Of(truth, "sand").ShouldBe(Of(record, "sand in casing"), 0.02 * Of(record, "sand in casing"));
    }

    [Fact]
    public void Charges_of_a_log_add_up_and_its_water_level_is_that_of_the_tide_gauge()
    {
        var tide = SeedData.Rows("tide.csv").ToDictionary(row => At(row["time"]), row => Of(row, "water level"));
        foreach (var truth in Truth)
        {
            var samples = SeedData.Rows(truth["file"]);
            samples.Sum(row => Of(row, "charge")).ShouldBe(Of(truth, "charged"), 0.01 * Of(truth, "charged"));
            foreach (var row in samples)
                if (tide.TryGetValue(At(row["time"]), out var level)) Of(row, "water level").ShouldBe(level, 0.05);
        }
    }

    [Fact]
    public void One_casing_builds_one_pile_at_a_time()
    {
        foreach (var casing in Truth.GroupBy(row => row["casing"]))
        {
            var spans = casing.Select(row => (From: At(row["first sample"]), To: At(row["first sample"]).AddSeconds(Of(row, "end seconds")))).OrderBy(span => span.From).ToList();
            spans.Zip(spans.Skip(1)).ShouldAllBe(pair => pair.First.To <= pair.Second.From);
        }
    }

    [Fact]
    public void The_planted_faults_are_in_the_samples_and_in_no_other_log()
    {
        foreach (var truth in Truth)
        {
            var samples = SeedData.Rows(truth["file"]);
            var fault = truth["fault"];
            LongestGap(samples).ShouldBe(fault == "record-gap" ? 92 : 2, truth["file"]);
            (LongestSame(samples) >= 10).ShouldBe(fault == "sensor-stuck", truth["file"]);
            (truth["hang up length"].Length > 0).ShouldBe(fault.StartsWith("hang-up", StringComparison.Ordinal), truth["file"]);
            (Of(truth, "least metre diameter") < 1.9).ShouldBe(fault is "thin-place" or "hang-up" or "hang-up-repaired", truth["file"]);
        }

        Truth.Single(row => row["fault"] == "hang-up")["hang up closed"].ShouldBe("no");
        Truth.Single(row => row["fault"] == "hang-up-repaired")["hang up closed"].ShouldBe("yes");
    }

    private static double LongestGap(IReadOnlyList<IReadOnlyDictionary<string, string>> samples) =>
        samples.Zip(samples.Skip(1)).Max(pair => (At(pair.Second["time"]) - At(pair.First["time"])).TotalSeconds);

    private static int LongestSame(IReadOnlyList<IReadOnlyDictionary<string, string>> samples)
    {
        var (longest, run) = (1, 1);
        for (var index = 1; index < samples.Count; index++)
        {
            run = samples[index]["sand above tip"] == samples[index - 1]["sand above tip"] ? run + 1 : 1;
            longest = Math.Max(longest, run);
        }

        return longest;
    }

    private static double Of(IReadOnlyDictionary<string, string> row, string column) => SeedData.Number(row[column]);

    private static DateTimeOffset At(string time) => DateTimeOffset.Parse(time, CultureInfo.InvariantCulture);

    /// <summary>Tern writes site time, in summer two hours ahead of UTC.</summary>
    private static DateTimeOffset Local(string time) => At(time + "+02:00");
}
