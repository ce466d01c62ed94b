using Shouldly;
using SiteProgress.Core.Coordinates;
using Xunit;

namespace SiteProgress.Core.Tests.Coordinates;

public sealed class ProjectedCrsTests
{
    private static readonly string Wkt = ReferenceFiles.Definition("gigs A1");

    [Fact]
    public void A_definition_gives_its_names_unit_and_axes()
    {
        var crs = ReferenceFiles.System("gigs G11");
        crs.Name.ShouldBe("POSGAR 98 / Argentina 5");
        crs.GeographicName.ShouldBe("POSGAR 98");
        crs.Unit.Metres.ShouldBe(1);
        crs.FirstAxis.ShouldBe(new CrsAxis("X", AxisDirection.North));
        crs.SecondAxis.ShouldBe(new CrsAxis("Y", AxisDirection.East));
        crs.FromWritten(10, 20).ShouldBe(new ProjectedCoordinate(20, 10));
        crs.ToWritten(new(20, 10)).ShouldBe((10, 20));
        crs.Projection.MethodName.ShouldBe("Transverse Mercator");
    }

    [Fact]
    public void Every_cut_of_a_definition_is_refused_in_words()
    {
        for (var length = 0; length < Wkt.Length; length++)
        {
            var refusal = ProjectedCrs.FromWkt(0, Wkt[..length]).Refusal;
            refusal.ShouldNotBeNullOrWhiteSpace($"cut after {length} characters");
            refusal.ShouldEndWith(".");
        }

        ProjectedCrs.FromWkt(0, Wkt[..100]).Refusal!.ShouldContain("cut short");
    }

    [Theory]
    [InlineData("GEOGCS[\"WGS 84\",DATUM[\"WGS_1984\",SPHEROID[\"WGS 84\",6378137,298.257223563]],PRIMEM[\"Greenwich\",0],UNIT[\"degree\",0.0174532925199433]]", "geographic system")]
    [InlineData("LOCAL_CS[\"Harbour grid\",UNIT[\"metre\",1]]", "site grid")]
    [InlineData("hello", "opening bracket")]
    [InlineData("PROJCS[\"a\"]", "datum")]
    [InlineData("PROJCS[\"a\",,]", "a value")]
    [InlineData("", "empty")]
    public void What_is_not_a_projected_system_is_refused_by_what_it_is(string text, string expected) =>
        ProjectedCrs.FromWkt(0, text).Refusal!.ShouldContain(expected);

    [Fact]
    public void A_missing_parameter_is_named() =>
        ProjectedCrs.FromWkt(0, Wkt.Replace("PARAMETER[\"scale_factor\",0.9996],", "")).Refusal!.ShouldContain("scale_factor");

    [Fact]
    public void A_method_without_survey_accuracy_is_refused_by_name() =>
        ProjectedCrs.FromWkt(0, Wkt.Replace("Transverse_Mercator", "Winkel_Tripel")).Refusal!.ShouldContain("Winkel Tripel");

    [Fact]
    public void A_definition_of_another_code_is_refused() =>
        ProjectedCrs.FromWkt(32654, Wkt[..^1] + ",AUTHORITY[\"EPSG\",\"32631\"]]").Refusal.ShouldBe("The definition says that it is EPSG:32631, not EPSG:32654.");

    [Fact]
    public void Deep_nesting_is_refused_not_followed() =>
        ProjectedCrs.FromWkt(0, string.Concat(Enumerable.Repeat("PROJCS[", 100_000))).Refusal!.ShouldContain("nested too deeply");
}
