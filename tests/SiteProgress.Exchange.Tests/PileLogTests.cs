using NodaTime;
using SiteProgress.Core.Logs;
using SiteProgress.Exchange.PileLogs;

namespace SiteProgress.Exchange.Tests;

public sealed class PileLogTests
{
    [Fact]
    public void Rows_of_two_piles_are_two_logs_with_the_columns_that_hold_something()
    {
        var reading = Read(
            """
            Time,Pile No,Barge,Casing,Casing tip level [m],Sand below casing top [m],Air pressure [bar],Charge [m3],Valve open
            2026-04-01T06:00:00+02:00,A-0101,Tern,1,-12.30,20.1,3.1,,
            2026-04-01T06:00:00.5+02:00,A-0101,Tern,1,-12.32,,3.2,5.5,
            2026-04-01T06:20:00+02:00,A-0102,Tern,2,-13.00,18,3,,
            """).WithoutProblems();

        reading.Rows.Select(row => (row.Line, row.Value.PileNumber, row.Value.Casing)).ShouldBe([(2, "A-0101", 1), (4, "A-0102", 2)]);
        var log = reading.Rows[0].Value.Log;
        (log.FirstSample, log.TipMeasure, log.SandMeasure).ShouldBe((Instant.FromUtc(2026, 4, 1, 4, 0), TipMeasure.Level, SandMeasure.DistanceFromTop));
        log.Seconds.ToArray().ShouldBe([0, 0.5]);
        log.Of(LogChannel.Sand).ToArray().ShouldBe([20.1, double.NaN]);
        log.Of(LogChannel.AirPressure)[0].ShouldBe(310, 1e-9);
        log.Has(LogChannel.Valve).ShouldBeFalse();
    }

    [Fact]
    public void A_depth_below_water_stays_a_depth_with_the_water_level_beside_it()
    {
        var log = Read("Time,Casing tip below water [m],Water level [m]\n2026-04-01T06:00:00Z,12.5,0.42\n").WithoutProblems().Rows.ShouldHaveSingleItem().Value.Log;

        log.TipMeasure.ShouldBe(TipMeasure.DepthBelowWater);
        (log.Of(LogChannel.Tip)[0], log.Of(LogChannel.WaterLevel)[0]).ShouldBe((12.5, 0.42));
    }

    [Fact]
    public void A_value_that_cannot_be_is_told_by_line_and_column()
    {
        var problem = Read("Time,Casing tip level [m],Valve open\n2026-04-01T06:00:00Z,-12.5,7\n").Problems.ShouldHaveSingleItem();

        (problem.Line, problem.Column, problem.Expected).ShouldBe((2, "Valve open", "1 for open, 0 for closed between 0 and 1"));
    }

    private static TableReading<ReadLog> Read(string text) => PileLogReader.Read(
        Given.Bytes(text + "\n"), Given.Choices, TestContext.Current.CancellationToken);
}
