using Shouldly;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.SiteGrid;
using SiteProgress.Jobs.Tests.RecordsIn;
using Xunit;

namespace SiteProgress.Jobs.Tests.SiteGrid;

/// <summary>The site grid of the demonstration: its marks, and points between its frames.</summary>
public sealed class SiteGridTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    [Fact]
    public async Task The_adjustment_comes_with_residuals_and_who_adopted_it()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        SiteGridRead grid = (await intake.Get<ReadSiteGrid>().RunAsync(await intake.PermitAsync(Role.OwnersRepresentative), Intake.Cancellation)).ShouldNotBeNull();

        (grid.Adopted.AdoptedBy, grid.Adopted.Body.Adjustment.Revision, grid.Crs.EpsgCode).ShouldBe(("operator", 1, 25832));
        grid.Quality!.Redundancy.ShouldBe(8); // six marks, two coordinates each, four parameters
        grid.Quality.Residuals.MaxBy(residual => residual.LengthMetres)!.Name.ShouldBe("CP-5"); // observed poorly, as seed-data/README.md says
    }

    [Fact]
    public async Task A_point_goes_from_each_frame_to_the_others_and_back()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit owner = await intake.PermitAsync(Role.OwnersRepresentative);
        ConvertPoints convert = intake.Get<ConvertPoints>();
        PointInFrames where = (await convert.RunAsync(owner, [new(Frame.SiteGrid, 1250, 2030)], Intake.Cancellation))!.Points[0].Where.ShouldNotBeNull();

        RecordedPosition[] same =
        [
            new(Frame.ProjectedCrs, where.Projected.EastingMetres, where.Projected.NorthingMetres),
            new(Frame.Geographic, where.Geographic.LatitudeDegrees, where.Geographic.LongitudeDegrees),
        ];
        foreach (ConvertedPoint back in (await convert.RunAsync(owner, same, Intake.Cancellation))!.Points)
        {
            back.Where!.Site.XMetres.ShouldBe(1250, 1e-5);
            back.Where.Site.YMetres.ShouldBe(2030, 1e-5);
        }

        // Site 0,0 is E 390735.000 N 6161852.000 by the demonstration's own definition (seed-data/README.md); the fit rests on
        // marks with noise of 4 mm, about 2.3 km away, so 60 mm there is five of its standard errors.
        PointInFrames origin = (await convert.RunAsync(owner, [new(Frame.SiteGrid, 0, 0)], Intake.Cancellation))!.Points[0].Where.ShouldNotBeNull();
        origin.Projected.EastingMetres.ShouldBe(390735.000, 0.060);
        origin.Projected.NorthingMetres.ShouldBe(6161852.000, 0.060);

        // The scale factor of EPSG:25832 at the site, from PROJ as seed-data/README.md prints it.
        where.Distortion.PointScaleFactor.ShouldBe(0.99974073, 2e-7);
        where.Distortion.ConvergenceDegrees.ShouldBeLessThan(0); // west of the central meridian in the northern hemisphere
    }

    [Fact]
    public async Task A_point_outside_the_area_of_use_is_refused_and_a_swap_is_named()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit owner = await intake.PermitAsync(Role.OwnersRepresentative);
        Conversion conversion = (await intake.Get<ConvertPoints>().RunAsync(
            owner, [new(Frame.Geographic, 7.3, 55.6), new(Frame.ProjectedCrs, 6162783, 393162), new(Frame.SiteGrid, 60000, 2000)], Intake.Cancellation)).ShouldNotBeNull();

        conversion.Points[0].Refusal!.ShouldContain("Latitude and longitude look swapped");
        conversion.Points[1].Refusal!.ShouldContain("Easting and northing look swapped");
        conversion.Points[2].Caution!.ShouldContain("km from the site's marks");
    }

    [Theory]
    [InlineData(Frame.SiteGrid, "1250.5", "2030,25", 1250.5, 2030.25)]
    [InlineData(Frame.SiteGrid, "\u22121\u2009250.5", " 2030 ", -1250.5, 2030)]
    [InlineData(Frame.Geographic, "55\u00B036'06.213\"N", "7 18 00 E", 55.60172583333333, 7.3)]
    [InlineData(Frame.Geographic, "55,5", "7.25", 55.5, 7.25)]
    public void A_point_is_read_as_people_write_it(Frame frame, string first, string second, double one, double two)
    {
        (RecordedPosition? point, string? problem) = PointText.Read(frame, first, second);

        problem.ShouldBeNull();
        point!.Value.First.ShouldBe(one, 1e-12);
        point.Value.Second.ShouldBe(two, 1e-12);
    }

    [Theory]
    [InlineData(Frame.SiteGrid, "12a", "3", "\"12a\" is not a number of metres.")]
    [InlineData(Frame.SiteGrid, "NaN", "3", "\"NaN\" is not a number of metres.")]
    [InlineData(Frame.SiteGrid, "1.250,5", "3", "\"1.250,5\" is not a number of metres.")]
    [InlineData(Frame.SiteGrid, "1e400", "3", "\"1e400\" is not a number of metres.")]
    [InlineData(Frame.SiteGrid, "", "3", "A coordinate is missing; expected metres.")]
    [InlineData(Frame.Geographic, "95", "7", "\"95\" is not a latitude: it must lie between -90 and 90 degrees.")]
    [InlineData(Frame.Geographic, "55 61 00", "7", "\"55 61 00\" is not a latitude: minutes and seconds must be below 60.")]
    [InlineData(Frame.Geographic, "55 N", "7 N", "\"7 N\" is not a longitude: its hemisphere must be E or W.")]
    public void A_wrong_point_is_told_with_what_was_typed(Frame frame, string first, string second, string said)
        => PointText.Read(frame, first, second).ShouldBe((null, said));

    [Fact]
    public void A_pasted_list_keeps_its_lines_and_names()
    {
        IReadOnlyList<PointLine> lines = PointText.ReadList(Frame.SiteGrid, "# marks\nCP-1\t940.0\t1958.4\r\n\n1255.25, 1941.0\nA;1;2;3\nB 5 6\n7 8\n1,5;2,5\n", 100);

        lines.Select(line => (line.Line, line.Name, line.Point?.First, line.Point?.Second)).ShouldBe(
            [(2, "CP-1", 940.0, 1958.4), (4, null, 1255.25, 1941.0), (5, null, null, null), (6, "B", 5, 6), (7, null, 7, 8), (8, null, 1.5, 2.5)]);
        lines[2].Problem!.ShouldContain("found 4 cells");
    }

    [Fact]
    public void A_list_longer_than_allowed_says_where_reading_ended()
        => PointText.ReadList(Frame.SiteGrid, "1 1\n2 2\n3 3\n", 2)[^1].ShouldBe(new PointLine(3, null, null, "The list is longer than 2 points; what stands from here on was not read."));
}
