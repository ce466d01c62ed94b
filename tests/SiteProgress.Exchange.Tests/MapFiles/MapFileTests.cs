using System.Text;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.PileSchedules;

namespace SiteProgress.Exchange.Tests.MapFiles;

/// <summary>GeoJSON (RFC 7946), GeoPackage (OGC 12-128r19) and LandXML, written by hand and by ogr2ogr.</summary>
public sealed class MapFileTests : IDisposable
{
    private readonly OutsideTools _tools = new();

    [Fact]
    public void A_position_is_longitude_then_latitude()
    {
        // RFC 7946 section 3.1.1: longitude and latitude in this order; section 1.5 and appendix A.1 show a point so.
        var reading = Read("""{"type":"FeatureCollection","name":"x","features":[{"type":"Feature","id":7,"geometry":{"type":"Point","coordinates":[7.25,55.5,-28.1]},"properties":{"Pile No":"A-1","Zone":"A","Tip level [m]":-28.05,"Remark":null}}]}""").WithoutProblems();

        reading.Rows.Single().ShouldBe(new ReadRow<AsPlanned>(1, new AsPlanned("A-1", "A", new RecordedPosition(Frame.Geographic, 55.5, 7.25), null, null, -28.05, null, null)));
        reading.Assumptions.ShouldContain("Points are longitude and latitude, because GeoJSON knows no other frame (RFC 7946, section 4); they are taken as on the datum of the site's CRS, without a shift.");
    }

    [Fact]
    public void Numbers_that_are_no_degrees_are_refused_until_the_frame_is_chosen()
    {
        const string text = """{"type":"FeatureCollection","features":[{"type":"Feature","geometry":{"type":"Point","coordinates":[392796.601,6162897.289]},"properties":{"Pile No":"A-1","Zone":"A"}}]}""";

        var refused = Read(text);
        refused.TheProblem().Expected.ShouldBe("a choice of the frame of the points, because GeoJSON has longitude and latitude (RFC 7946, section 4), and these numbers are neither");
        refused.Questions.ShouldContain(question => question.Kind == QuestionKind.Frame);

        Read(text, _tools.Choices with { Frame = Frame.ProjectedCrs }).WithoutProblems().Rows.Single().Value.Position.ShouldBe(new RecordedPosition(Frame.ProjectedCrs, 392796.601, 6162897.289));
    }

    [Theory]
    [InlineData("""{"type":"LineString","coordinates":[[1,2],[3,4]]}""", "LineString")]
    [InlineData("""{"type":"Point","coordinates":["a","b"]}""", "a")]
    [InlineData("""{"type":"Point","coordinates":[1]}""", "Point")]
    [InlineData("""{"type":"Point","coordinates":[1e400,2]}""", "1e400")]
    [InlineData("""{"coordinates":[1,2]}""", "no type")]
    public void Another_geometry_is_told_by_its_feature(string geometry, string found)
    {
        var reading = Read($$$"""{"type":"FeatureCollection","features":[{"type":"Feature","geometry":{"type":"Point","coordinates":[1,2]},"properties":{"Pile No":"A-1","Zone":"A"}},{"type":"Feature","geometry":{{{geometry}}},"properties":{"Pile No":"A-2","Zone":"A"}}]}""");

        reading.Rows.Single().Value.Number.ShouldBe("A-1");
        reading.Problems.ShouldAllBe(problem => problem.Line == 2);
        reading.Problems.ShouldContain(problem => problem.Found == found);
    }

    [Fact]
    public void A_property_titled_like_the_geometry_stands_beside_it_and_does_not_take_its_place()
        => Read("""{"type":"FeatureCollection","features":[{"type":"Feature","geometry":{"type":"Point","coordinates":[7.25,55.5]},"properties":{"Pile No":"A-1","Zone":"A","Longitude":1.0,"Lat":2.0}}]}""")
            .WithoutProblems().Rows.Single().Value.Position.ShouldBe(new RecordedPosition(Frame.Geographic, 55.5, 7.25));

    [Fact]
    public void GeoJson_of_ogr2ogr_in_the_projected_system_says_so_and_is_taken_so()
        => ShouldBeThePoints(_tools.Ogr("GeoJSON", "points.geojson", "-a_srs", "EPSG:25832"), Frame.ProjectedCrs);

    [Fact]
    public void GeoJson_of_ogr2ogr_by_the_rfc_is_geographic()
    {
        using var stream = _tools.Ogr("GeoJSON", "points.geojson", "-lco", "RFC7946=YES", "-s_srs", "EPSG:25832", "-t_srs", "EPSG:4326");

        var rows = PlannedPileReader.Read(stream, _tools.Choices, TestContext.Current.CancellationToken).WithoutProblems().Rows;

        // cs2cs (PROJ 9.1.1) +init EPSG:25832 to EPSG:4258, 392796.601 6162897.289: 55 35 59.99 N, 7 17 50.9 E; ogr2ogr writes seven decimals.
        rows[0].Value.Position.Frame.ShouldBe(Frame.Geographic);
        rows[0].Value.Position.First.ShouldBe(55.6, 0.05);
        rows[0].Value.Position.Second.ShouldBe(7.3, 0.05);
    }

    [Fact]
    public void A_GeoPackage_of_ogr2ogr_says_its_system_and_is_taken_so()
        => ShouldBeThePoints(_tools.Ogr("GPKG", "points.gpkg", "-a_srs", "EPSG:25832"), Frame.ProjectedCrs);

    [Fact]
    public void A_GeoPackage_in_another_system_is_refused_with_both_codes()
    {
        using var stream = _tools.Ogr("GPKG", "points.gpkg", "-a_srs", "EPSG:25833");

        PlannedPileReader.Read(stream, _tools.Choices, TestContext.Current.CancellationToken).TheProblem().Expected
            .ShouldBe("points in a frame of this site; the layer says EPSG:25833, and the site's CRS is EPSG:25832. Convert the file, or choose the frame if it states the wrong one");
    }

    [Fact]
    public void A_GeoPackage_is_refused_plainly_where_nobody_gives_a_temporary_file()
    {
        using var stream = _tools.Ogr("GPKG", "points.gpkg");

        PlannedPileReader.Read(stream, Given.Choices, TestContext.Current.CancellationToken).TheProblem().Expected
            .ShouldBe("a text table, workbook or drawing; databases cannot be read here");
    }

    [Theory]
    // LandXML-1.2: northing, easting, elevation.
    [InlineData("<Metric linearUnit=\"meter\"/>", 392796.601)]
    [InlineData("<Imperial linearUnit=\"foot\"/>", 392796.601 * 0.3048)]
    [InlineData("<Imperial linearUnit=\"USSurveyFoot\"/>", 392796.601 * 1200 / 3937)]
    public void LandXml_points_have_the_northing_first_and_keep_their_unit(string unit, double easting)
    {
        var text = $"<?xml version=\"1.0\"?><LandXML xmlns=\"http://www.landxml.org/schema/LandXML-1.2\"><Units>{unit}</Units><CoordinateSystem epsgCode=\"25832\"/><CgPoints><CgPoint name=\"A-1\" code=\"SCP\">6162897.289 392796.601 -12.4</CgPoint><CgPoint name=\"A-2\">6162896.1 392798.4</CgPoint></CgPoints></LandXML>";

        var reading = Read(text, _tools.Choices with { FixedValues = [new FixedValue("zone", "A")] }).WithoutProblems();

        reading.Rows.Select(row => row.Value.Number).ShouldBe(["A-1", "A-2"]);
        reading.Rows[0].Value.Position.First.ShouldBe(easting, 1e-6);
        reading.Assumptions.ShouldContain("Column \u201CName\u201D is taken as Pile No.");
        reading.Assumptions.ShouldContain("Zone is \u201CA\u201D in all rows, as chosen.");
    }

    public void Dispose() => _tools.Dispose();

    private void ShouldBeThePoints(Stream stream, Frame frame)
    {
        using (stream)
        {
            var reading = PlannedPileReader.Read(stream, _tools.Choices, TestContext.Current.CancellationToken).WithoutProblems();
            reading.Rows.Select(row => (row.Line, row.Value.Number, row.Value.Zone, row.Value.TipLevelMetres)).ShouldBe(
                [(1L, "A-0001", "A", -28.1), (2, "A-0002", "A", -28.2), (3, "\u00C5-3", "B", -28.3)]);
            reading.Rows.ShouldAllBe(row => row.Value.Position.Frame == frame);
            reading.Rows[0].Value.Position.First.ShouldBe(392796.601, 1e-6);
            reading.Rows[0].Value.Position.Second.ShouldBe(6162897.289, 1e-6);
        }
    }

    private TableReading<AsPlanned> Read(string text, ReadingChoices? choices = null)
        => PlannedPileReader.Read(new MemoryStream(Encoding.UTF8.GetBytes(text)), choices ?? _tools.Choices, TestContext.Current.CancellationToken);
}
