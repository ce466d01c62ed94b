using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.CheckMeasurements;
using SiteProgress.Exchange.ControlPoints;

namespace SiteProgress.Exchange.Tests;

public sealed class GoodFileTests
{
    [Fact]
    public void A_schedule_with_commas_and_points_on_the_site_grid_is_read()
    {
        var reading = Given.Planned(Given.PlannedHeader + "\nA-0001,A,1000.000,2000.5,2.00,-12.50,-28.00\n").WithoutProblems();

        reading.Rows.ShouldHaveSingleItem().ShouldBe(new ReadRow<AsPlanned>(
            2, new AsPlanned("A-0001", "A", new RecordedPosition(Frame.SiteGrid, 1000, 2000.5), 2, -12.5, -28, null, null)));
    }

    [Fact]
    public void A_schedule_with_semicolons_decimal_commas_title_lines_and_blank_levels_is_read()
    {
        var reading = Given.Planned(
            "\uFEFF# invented; schedule\r\nRevision 2\r\nPile No;Zone;Easting [m];Northing [m];Diameter [m];Top level [m];Tip level [m];Remark\r\n"
            + "B-0001;B;392796,601;6162897,289;1,80;-13,00;;\"corner; marked\"\r\n").WithoutProblems();

        reading.Rows.ShouldHaveSingleItem().ShouldBe(new ReadRow<AsPlanned>(
            4, new AsPlanned("B-0001", "B", new RecordedPosition(Frame.ProjectedCrs, 392796.601, 6162897.289), 1.8, -13, null, null, "corner; marked")));
        reading.Assumptions.ShouldContain("Read as UTF-8 with byte order mark, semicolon as delimiter, decimal comma; header on line 3.");
        reading.Assumptions.ShouldContain(sentence => sentence.StartsWith("Lines above the header, not read: # invented", StringComparison.Ordinal));
        reading.Assumptions.ShouldContain("The position is taken as the projected CRS of the site, because the header says Easting and Northing.");
    }

    [Fact]
    public void A_schedule_with_tabs_small_letters_and_underscores_is_read()
    {
        var reading = Given.Planned("pile_no\tzone\tx [m]\ty [m]\ttop_level [m]\nC-0001\tc\t1346.0\t2003.0\t-13.5\n").WithoutProblems();

        reading.Rows.ShouldHaveSingleItem().Value.ShouldBe(
            new AsPlanned("C-0001", "C", new RecordedPosition(Frame.SiteGrid, 1346, 2003), null, -13.5, null, null, null));
        reading.Assumptions.ShouldContain("Not in the file, so left empty: Diameter, Tip level, Min length, Remark.");
    }

    [Fact]
    public void An_installation_with_every_column_is_read()
    {
        var reading = Given.Built(
            "Record,Pile No,Barge,Casing,Set-up,Start,End penetration,End,X touch-down [m],Y touch-down [m],X end [m],Y end [m],"
            + "Heading grid [deg],Top level [m],Tip level [m],Sand in casing [m3],Inclination [deg],"
            + "Penetration rate at stop [m/min],Fix,Uncertainty [m],Outcome,Remark\n"
            + "R-7,A-0001 ,tern,2,S-4,2026-03-02T17:45:00,2026-03-02T17:57:30,2026-03-02T19:27:00+02:00,1013.669,1991.002,1013.685,1991.007,"
            + "33.2,-12.36,-28.21,64.8,0.5,0.41,RTK-fixed,0.05,Offset by instruction,\"moved, as told\"\n").WithoutProblems();

        reading.Rows.ShouldHaveSingleItem().Value.ShouldBe(new Installation(
            "R-7", "A-0001", "Tern", 2, "S-4",
            Instant.FromUtc(2026, 3, 2, 16, 45), Instant.FromUtc(2026, 3, 2, 16, 57, 30), Instant.FromUtc(2026, 3, 2, 17, 27),
            new RecordedPosition(Frame.SiteGrid, 1013.669, 1991.002), new RecordedPosition(Frame.SiteGrid, 1013.685, 1991.007),
            33.2, North.CrsGrid, -12.36, -28.21, 64.8, 0.5, 0.41, FixType.RtkFixed, 0.05, Outcome.OffsetByInstruction, "moved, as told"));
        reading.Assumptions.ShouldContain("Times without offset are taken as site time, Europe/Copenhagen.");
    }

    [Fact]
    public void What_an_installation_does_not_hold_is_missing_and_never_zero()
    {
        var value = Given.BuiltRows(";A-0001;Plover;;;;;;;abandoned").WithoutProblems().Rows.ShouldHaveSingleItem().Value;

        value.ShouldBe(new Installation(
            null, "A-0001", "Plover", null, null, null, null, null, null, null, null, null, null, null, null, null, null, null, null,
            Outcome.Abandoned, null));
    }

    [Fact]
    public void Latitude_and_longitude_are_read_as_degrees()
    {
        var reading = Given.Built(
            "Pile No;Barge;Latitude touch-down [deg];Longitude touch-down [deg];Outcome\nA-1;Tern;55,6001234;7,3;complete\n").WithoutProblems();

        reading.Rows[0].Value.TouchDown.ShouldBe(new RecordedPosition(Frame.Geographic, 55.6001234, 7.3));
    }

    [Fact]
    public void Check_measurements_are_read()
    {
        var reading = CheckMeasurementReader.Read(
            Given.Bytes("Time,Barge,Casing,Pile No,X recorded [m],Y recorded [m],X measured [m],Y measured [m],Method,Uncertainty [m]\n"
                + "2026-03-10T07:52+01:00,Tern,2,A-0293,1008.481,2008.425,1008.454,2008.413,total station,0.04\n"),
            Given.Choices, TestContext.Current.CancellationToken).WithoutProblems();

        reading.Rows.ShouldHaveSingleItem().Value.ShouldBe(new CheckMeasurement(
            Instant.FromUtc(2026, 3, 10, 6, 52), "Tern", 2, "A-0293",
            new RecordedPosition(Frame.SiteGrid, 1008.481, 2008.425), new RecordedPosition(Frame.SiteGrid, 1008.454, 2008.413),
            "total station", 0.04));
    }

    [Fact]
    public void Control_points_are_read_in_both_frames()
    {
        var reading = ControlPointReader.Read(
            Given.Bytes("Name,X [m],Y [m],Easting [m],Northing [m],Standard deviation [m]\nCP-1,940.000,1958.400,392589.492,6162982.201,0.004\n"),
            Given.Choices, TestContext.Current.CancellationToken).WithoutProblems();

        var point = reading.Rows.ShouldHaveSingleItem().Value;
        (point.Name, point.Site.XMetres, point.Site.YMetres).ShouldBe(("CP-1", 940, 1958.4));
        (point.Projected.EastingMetres, point.Projected.NorthingMetres, point.StandardDeviationMetres).ShouldBe((392589.492, 6162982.201, 0.004));
    }
}
