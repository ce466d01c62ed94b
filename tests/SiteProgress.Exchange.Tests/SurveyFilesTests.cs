using System.Text;
using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.Calibrations;
using SiteProgress.Exchange.Installations;
using SiteProgress.Exchange.WaterLevels;

namespace SiteProgress.Exchange.Tests;

/// <summary>Calibrations, water levels and installations with depths in the place of levels.</summary>
public sealed class SurveyFilesTests
{
    private static readonly ReadingChoices Choices = new()
    {
        Zones = ["A"],
        Barges = [new Barge("Tern", [new Casing(1, 1.2, 1.25, 20, 0)], null)],
        GridAxes = new GridAxes("X", "Y"),
        PileNumberCharacters = "A-Z0-9-",
        TimeZone = "Europe/Copenhagen",
        Now = Instant.FromUtc(2026, 6, 1, 0, 0),
    };

    [Fact]
    public void A_calibration_says_what_was_measured_and_leaves_the_rest_out()
    {
        var read = CalibrationReader.Read(Stream("Barge,Casing,Valid from,Evidence,Forward [m],Starboard [mm],Inner area [m2]\nTern,1,2026-03-01T06:00,Report 7,20.01,-2400,1.13\n"), Choices, TestContext.Current.CancellationToken);

        read.Problems.ShouldBeEmpty();
        read.Rows.ShouldHaveSingleItem().Value.ShouldBe(new Calibration("Tern", 1, Instant.FromUtc(2026, 3, 1, 5, 0), "Report 7", 20.01, -2.4, 1.13));
    }

    [Theory]
    [InlineData("Tern,1,2026-03-01T06:00,Report 7,", "something measured")]
    [InlineData("Tern,7,2026-03-01T06:00,Report 7,20", "a casing of Tern: 1")]
    [InlineData("Heron,1,2026-03-01T06:00,Report 7,20", "a barge of this site: Tern")]
    [InlineData("Tern,1,,Report 7,20", "a value")]
    [InlineData("Tern,1,2026-03-01T06:00,,20", "a value")]
    public void A_calibration_that_cannot_be_meant_is_told_by_its_line(string row, string expected)
    {
        var read = CalibrationReader.Read(Stream("Barge,Casing,Valid from,Evidence,Forward [m]\n" + row + "\n"), Choices, TestContext.Current.CancellationToken);

        read.Rows.ShouldBeEmpty();
        read.Problems.ShouldContain(problem => problem.Line == 2 && problem.Expected.StartsWith(expected, StringComparison.Ordinal));
    }

    [Fact]
    public void Water_levels_are_read_with_the_offset_of_each_time()
    {
        var read = WaterLevelReader.Read(Stream("Time,Water level [m]\n2026-03-29T01:50+01:00,0.54\n2026-03-29T03:00+02:00,0.63\n"), Choices, TestContext.Current.CancellationToken);

        // IANA tz database: clocks in Copenhagen went from 02:00 to 03:00 on 2026-03-29, so the two readings are ten minutes apart.
        read.Rows.Select(row => row.Value).ShouldBe(
            [new WaterReading(null, Instant.FromUtc(2026, 3, 29, 0, 50), 0.54), new WaterReading(null, Instant.FromUtc(2026, 3, 29, 1, 0), 0.63)]);
        FileKindGuess.From(Stream("Time,Water level [m]\n2026-03-29T01:50+01:00,0.54\n"), Choices, TestContext.Current.CancellationToken).Kind.ShouldBe(FileKind.WaterLevels);
    }

    [Fact]
    public void An_installation_keeps_the_depths_it_was_recorded_with()
    {
        var read = InstallationReader.Read(
            Stream("Record,Pile No,Barge,Outcome,Tip depth below deck [m],Draught [m],List [deg],Trim [deg],Correction age [s],Epoch\nT-1,A-1,Tern,complete,33.8,2.1,-1,0.5,1.2,2026.21\n"), Choices, TestContext.Current.CancellationToken);

        read.Problems.ShouldBeEmpty();
        var built = read.Rows.ShouldHaveSingleItem().Value;
        built.Depths.ShouldBe(new RecordedDepths(DepthBelow.Deck, 33.8, null, null, 2.1, null, null, -1, 0.5));
        built.TipLevelMetres.ShouldBeNull();
        (built.CorrectionAgeSeconds, built.CoordinateEpoch).ShouldBe((1.2, 2026.21));
    }

    [Fact]
    public void Depths_below_two_surfaces_in_one_row_are_a_problem()
        => InstallationReader.Read(
            Stream("Record,Pile No,Barge,Outcome,Tip depth below deck [m],Tip depth below water [m]\nT-1,A-1,Tern,complete,33.8,30\n"), Choices, TestContext.Current.CancellationToken)
            .Problems.ShouldHaveSingleItem().Expected.ShouldContain("depths below one surface");

    private static MemoryStream Stream(string text) => new(Encoding.UTF8.GetBytes(text));
}
