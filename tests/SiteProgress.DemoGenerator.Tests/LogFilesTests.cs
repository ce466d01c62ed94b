using System.Globalization;
using Shouldly;
using Xunit;

namespace SiteProgress.DemoGenerator.Tests;

/// <summary>The logs against the as-built records of the same piles, and the planted faults against what the samples show.</summary>
public class LogFilesTests
{
    private static readonly IReadOnlyList<IReadOnlyDictionary<string, string>> Truth = SeedData.Rows("truth/truth-logs.csv");

    private static readonly Dictionary<string, IReadOnlyDictionary<string, string>> Records =
        new[] { "tern", "plover", "curlew" }.SelectMany(SeedData.AsBuilt).SelectMany(SeedData.Rows).GroupBy(row => row["record"]).ToDictionary(group => group.Key, group => group.First());

    /// <summary>Samples of each log by its record, in the order of the files.</summary>
    private static readonly Dictionary<string, IReadOnlyList<IReadOnlyDictionary<string, string>>> Samples =
        Truth.Select(row => row["file"]).Distinct().SelectMany(SeedData.Rows).GroupBy(row => row["record"]).ToDictionary(
            group => group.Key, group => (IReadOnlyList<IReadOnlyDictionary<string, string>>)[.. group]);

    public static TheoryData<string> Logs => [.. Truth.Select(row => row["record"])];

    [Fact]
    public void Every_log_has_its_truth_and_every_fault_is_planted_once()
    {
        SeedData.Names.Where(name => name.StartsWith("logs/", StringComparison.Ordinal)).ShouldBe(Truth.Select(row => row["file"]).Distinct(), ignoreOrder: true);
        Truth.Select(row => row["record"]).ShouldBe(Samples.Keys, ignoreOrder: true);
        Truth.Select(row => row["fault"]).Where(fault => fault.Length > 0).Order(StringComparer.Ordinal).ShouldBe(
            ["air-lost", "hang-up", "hang-up-repaired", "record-gap", "sensor-stuck", "soil-in-casing", "thin-place", "valve-closed"]);
    }

    [Fact]
    public void Every_pile_of_the_last_two_working_days_and_every_planted_fault_of_a_pile_has_a_log()
    {
        var truth = SeedData.Rows("truth/truth.csv");
        var lastDays = truth.Select(row => row["working day"]).Distinct().Order(StringComparer.Ordinal).TakeLast(2).ToHashSet();
        var built = truth.Where(row => row["true top"].Length > 0).ToList();

        foreach (var row in built.Where(row => lastDays.Contains(row["working day"]))) Samples.ShouldContainKey(row["record"]);
        foreach (var code in new[] { "tip-short", "sand-short", "swapped-number" })
            foreach (var record in SeedData.Faults(code).SelectMany(fault => SeedData.Texts(fault, "records"))) Samples.ShouldContainKey(record);
        foreach (var code in new[] { "casing-offset", "wrong-frame", "no-tide", "duplicate-same-record", "duplicate-other-record" })
            SeedData.Faults(code).SelectMany(fault => SeedData.Texts(fault, "records")).ShouldContain(record => Samples.ContainsKey(record), code);
        SeedData.Names.Where(name => name.StartsWith("logs/", StringComparison.Ordinal)).Sum(name => SeedData.Bytes(name).Length).ShouldBeLessThan(6_000_000);
    }

    [Theory]
    [MemberData(nameof(Logs))]
    public void A_log_tells_the_pile_of_its_record(string of)
    {
        var truth = Truth.Single(row => row["record"] == of);
        var record = Records[of];
        var samples = Samples[of];
        samples.Select(row => (row["pile no"], row["barge"].ToUpperInvariant(), row["casing"])).Distinct().ShouldHaveSingleItem()
            .ShouldBe((record["pile no"], record["barge"].ToUpperInvariant(), record["casing"]));

        var begin = At(samples[0]["time"]);
        (begin.AddSeconds(Of(truth, "end of penetration seconds")) - Local(record["end penetration"])).TotalMinutes.ShouldBe(0, 1);
        (At(samples[^1]["time"]) - Local(record["end"])).TotalMinutes.ShouldBe(0, 1);
        begin.ShouldBeLessThan(Local(record["start"]));
        // From the record's begin the casing goes down: two minutes later it is deeper than it was until then.
        var level = samples.Select(Level).ToList();
        var start = samples.ToList().FindIndex(row => At(row["time"]) >= Local(record["start"]));
        level[start + 60].ShouldBeLessThan(level.Take(start).Min() - 0.2);

        level.Min().ShouldBe(Of(truth, "base"), 0.1);
        if (!SeedData.Faults("no-tide").SelectMany(fault => SeedData.Texts(fault, "records")).Contains(of))
        {
            // Recorded levels scatter by 0.02 m: four standard deviations.
            Of(truth, "base").ShouldBe(Of(record, "tip level"), 0.08);
            Of(truth, "top").ShouldBe(Of(record, "top level"), 0.08);
        }

        Of(truth, "sand").ShouldBe(Of(record, "sand in casing"), 0.03 * Of(record, "sand in casing"));
    }

    [Fact]
    public void Charges_of_a_log_add_up_and_its_water_level_is_that_of_the_tide_gauge()
    {
        var tide = SeedData.Rows("tide.csv").ToDictionary(row => At(row["time"]), row => Of(row, "water level"));
        foreach (var truth in Truth)
        {
            var samples = Samples[truth["record"]];
            samples.Sum(row => Of(row, "charge")).ShouldBe(Of(truth, "charged"), 0.015 * Of(truth, "charged"));
            foreach (var row in samples)
                if (tide.TryGetValue(At(row["time"]), out var level)) Of(row, "water level").ShouldBe(level, 0.05);
        }
    }

    [Fact]
    public void One_casing_builds_one_pile_at_a_time()
    {
        foreach (var casing in Truth.GroupBy(row => (row["barge"], row["casing"])))
        {
            var spans = casing.Select(row => (From: At(row["first sample"]), To: At(row["first sample"]).AddSeconds(Of(row, "end seconds")))).OrderBy(span => span.From).ToList();
            spans.Zip(spans.Skip(1)).ShouldAllBe(pair => pair.First.To <= pair.Second.From);
        }
    }

    [Fact]
    public void The_planted_faults_are_in_the_samples_and_in_no_other_log()
    {
        var thin = SeedData.Faults("sand-short").SelectMany(fault => SeedData.Texts(fault, "records")).ToHashSet();
        foreach (var truth in Truth)
        {
            var fault = truth["fault"];
            (truth["hang up length"].Length > 0).ShouldBe(fault.StartsWith("hang-up", StringComparison.Ordinal), truth["record"]);
            if (truth["barge"] != "Tern") continue;
            var samples = Samples[truth["record"]];
            LongestGap(samples).ShouldBe(fault == "record-gap" ? 92 : 2, truth["record"]);
            (LongestSame(samples) >= 10).ShouldBe(fault == "sensor-stuck", truth["record"]);
            (Of(truth, "least metre diameter") < 1.88).ShouldBe(fault is "thin-place" or "hang-up" or "hang-up-repaired" || thin.Contains(truth["record"]), truth["record"]);
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

    /// <summary>Level of the tip, where Curlew logs its depth below water.</summary>
    private static double Level(IReadOnlyDictionary<string, string> row)
        => row.TryGetValue("casing tip level", out var level) ? SeedData.Number(level) : Of(row, "water level") - Of(row, "casing tip below water");

    /// <summary>Tern writes site time, Plover too but day before month, Curlew with its offset.</summary>
    private static DateTimeOffset Local(string time)
    {
        if (time.Contains('+', StringComparison.Ordinal)) return At(time);
        var site = DateTime.ParseExact(time, ["dd.MM.yyyy HH:mm", "yyyy-MM-ddTHH:mm:ss"], CultureInfo.InvariantCulture);
        return new DateTimeOffset(site, TimeZoneInfo.FindSystemTimeZoneById("Europe/Copenhagen").GetUtcOffset(site));
    }
}
