using System.Text;
using Shouldly;
using SiteProgress.Core.Logs;
using SiteProgress.Exchange.PileLogs;
using Xunit;

namespace SiteProgress.Exchange.Tests;

/// <summary>Logs as lists of values in JSON: the same log as from a table, and clear words by member and index where it is none.</summary>
public sealed class PileLogJsonTests
{
    private const string Good = """
        {"record":"T-1","pileNo":"A-0001","barge":"Tern","casing":1,"firstSample":"2026-03-10T07:00:00Z","seconds":[0,2,4.2],
         "casingTipLevel":[-12.4,-12.85,-13.3],"sandAboveTip":[14,null,13.98],"inclinationX":[0.2,0.2,0.25],"charge":[15.6,0,1e-1],"valveOpen":[0,1,1]}
        """;

    private const string SameAsTable =
        "Time,Record,Pile No,Barge,Casing,Casing tip level [m],Sand above tip [m],Inclination X [deg],Charge [m3],Valve open\n"
        + "2026-03-10T07:00:00Z,T-1,A-0001,Tern,1,-12.40,14.00,0.20,15.6,0\n"
        + "2026-03-10T07:00:02Z,T-1,A-0001,Tern,1,-12.85,,0.20,0,1\n"
        + "2026-03-10T07:00:04.2Z,T-1,A-0001,Tern,1,-13.30,13.98,0.25,0.1,1\n";

    [Fact]
    public void A_log_of_JSON_is_the_same_to_the_byte_as_from_a_table()
    {
        ReadLog json = Read(Good).Rows.ShouldHaveSingleItem().Value;
        using MemoryStream bytes = new(Encoding.UTF8.GetBytes(SameAsTable));
        ReadLog table = PileLogReader.Read(bytes, Given.Choices, TestContext.Current.CancellationToken).Rows.ShouldHaveSingleItem().Value;

        (json.RecordId, json.PileNumber, json.Barge, json.Casing).ShouldBe((table.RecordId, table.PileNumber, table.Barge, table.Casing));
        Convert.ToHexString(LogBytes.Write(json.Log)).ShouldBe(Convert.ToHexString(LogBytes.Write(table.Log)));
        double.IsNaN(json.Log.Of(LogChannel.Sand)[1]).ShouldBeTrue();
    }

    [Fact]
    public void Times_may_stand_in_a_list_and_seconds_may_begin_late()
    {
        string[] ways =
        [
            Good.Replace("\"firstSample\":\"2026-03-10T07:00:00Z\",\"seconds\":[0,2,4.2]", "\"time\":[\"2026-03-10T08:00:00+01:00\",\"2026-03-10T07:00:02Z\",\"2026-03-10T07:00:04.200Z\"]", StringComparison.Ordinal),
            Good.Replace("\"2026-03-10T07:00:00Z\",\"seconds\":[0,2,4.2]", "\"2026-03-10T06:59:50Z\",\"seconds\":[10,12,14.2]", StringComparison.Ordinal),
        ];
        foreach (string way in ways) LogBytes.Hash(LogBytes.Write(Read(way).Rows.ShouldHaveSingleItem().Value.Log)).ShouldBe(LogBytes.Hash(LogBytes.Write(Read(Good).Rows[0].Value.Log)));
    }

    [Fact]
    public void Several_logs_are_a_list_and_a_bad_one_does_not_keep_the_good_ones()
    {
        TableReading<ReadLog> reading = Read($"{{\"logs\":[{Good},{{\"record\":\"T-2\"}},{Good.Replace("T-1", "T-3", StringComparison.Ordinal)}]}}");

        reading.Rows.Select(row => (row.Line, row.Value.RecordId)).ShouldBe([(1, "T-1"), (3, "T-3")]);
        reading.Problems.ShouldHaveSingleItem().Line.ShouldBe(2);
        reading.RowsRead.ShouldBe(3);
        reading.LinesLeftOut.ShouldBe([2L]);
    }

    [Theory]
    [InlineData("\"seconds\":[0,2,4.2]", "\"seconds\":[0,\"two\",4.2]", "seconds[1]", "seconds after firstSample")]
    [InlineData("\"seconds\":[0,2,4.2]", "\"seconds\":[0,2,1e9]", "seconds[2]", "at most ten days")]
    [InlineData("\"seconds\":[0,2,4.2]", "\"seconds\":7", "seconds", "a list of seconds")]
    [InlineData("\"2026-03-10T07:00:00Z\"", "\"tomorrow\"", "firstSample", "a date and time")]
    [InlineData("\"firstSample\":\"2026-03-10T07:00:00Z\",", "", null, "the times of the samples")]
    [InlineData("[-12.4,-12.85,-13.3]", "[-12.4,-12.85]", "casingTipLevel", "3 values, one for each sample; there are 2")]
    [InlineData("[-12.4,-12.85,-13.3]", "[-12.4,\"deep\",-13.3]", "casingTipLevel[1]", "a number")]
    [InlineData("[-12.4,-12.85,-13.3]", "[-12.4,true,-13.3]", "casingTipLevel[1]", "a number")]
    [InlineData("[-12.4,-12.85,-13.3]", "[-12.4,[1],-13.3]", "casingTipLevel[1]", "a number, or null")]
    [InlineData("[-12.4,-12.85,-13.3]", "[-12.4,-1285,-13.3]", "casingTipLevel[1]", "between")]
    [InlineData("[-12.4,-12.85,-13.3]", "[null,null,null]", "casingTipLevel", "casing tip of the samples")]
    [InlineData("\"casingTipLevel\"", "\"casingTipLevel\":[1,2,3],\"casingTipBelowWater\"", "casingTipBelowWater", "one measure of it; casingTipLevel is there too")]
    [InlineData("\"barge\":\"Tern\"", "\"barge\":\"Nobody\"", "barge", "a barge of this site")]
    [InlineData("\"barge\":\"Tern\"", "\"barge\":[\"Tern\",\"Tern\",\"Tern\"]", "barge", "one value for the whole log")]
    [InlineData("\"casing\":1", "\"casing\":{\"number\":1}", "casing", "a value, or a list of values")]
    [InlineData("\"casing\":1", "\"casing\":1,\"Casing\":2", "Casing", "each member once")]
    public void What_is_wrong_is_named_by_member_and_index(string good, string bad, string? member, string expected)
    {
        TableReading<ReadLog> reading = Read(Good.Replace(good, bad, StringComparison.Ordinal));

        reading.Rows.ShouldBeEmpty();
        ImportProblem problem = reading.Problems.ShouldHaveSingleItem();
        (problem.Line, problem.Column).ShouldBe((1, member));
        problem.Expected.ShouldContain(expected);
    }

    [Theory]
    [InlineData("[[1,2]]")]
    [InlineData("{\"seconds\":[0,1]}")]
    [InlineData("7")]
    [InlineData("{\"record\":")]
    [InlineData("[{\"record\":\"\\ud83e\",\"seconds\":[1]}]")]
    public void What_holds_no_log_is_told_and_never_thrown(string json)
    {
        TableReading<ReadLog> reading = Read(json);
        reading.Rows.ShouldBeEmpty();
        reading.ProblemCount.ShouldBeGreaterThan(0);
    }

    [Fact]
    public void Logs_are_told_from_installations_by_their_lists()
    {
        PileLogJson.Holds(Encoding.UTF8.GetBytes(Good)).ShouldBeTrue();
        PileLogJson.Holds(Encoding.UTF8.GetBytes($"[{Good}]")).ShouldBeTrue();
        PileLogJson.Holds("""[{"record":"T-1","pileNo":"A-0001"}]"""u8.ToArray()).ShouldBeFalse();
        PileLogJson.Holds("""{"installations":[{"record":"T-1"}]}"""u8.ToArray()).ShouldBeFalse();
        PileLogJson.Holds("nothing"u8.ToArray()).ShouldBeFalse();
    }

    private static TableReading<ReadLog> Read(string json) => PileLogJson.Read(Encoding.UTF8.GetBytes(json), Given.Choices, TestContext.Current.CancellationToken);
}
