using System.Diagnostics;
using Shouldly;
using SiteProgress.Bench.Coordinates;
using SiteProgress.Core.Coordinates;
using Xunit;

namespace SiteProgress.Core.Tests.Coordinates;

/// <summary>The newer form of definitions, as the installed PROJ writes it (projinfo), must mean the same as the older one in the store's table.</summary>
public sealed class Wkt2Tests
{
    [Theory]
    [InlineData(32631)]
    [InlineData(27700)]
    [InlineData(2193)]
    [InlineData(2046)]
    [InlineData(27572)]
    [InlineData(31370)]
    [InlineData(2921)]
    [InlineData(3568)]
    [InlineData(3375)]
    [InlineData(29873)]
    [InlineData(23700)]
    [InlineData(28992)]
    [InlineData(3031)]
    [InlineData(32661)]
    [InlineData(5514)]
    [InlineData(2065)]
    [InlineData(27200)]
    [InlineData(3395)]
    [InlineData(5330)]
    [InlineData(3388)]
    [InlineData(3857)]
    [InlineData(2314)]
    [InlineData(5880)]
    [InlineData(3577)]
    [InlineData(3035)]
    [InlineData(6933)]
    public void Both_forms_of_a_definition_give_the_same_coordinates(int code)
    {
        var stored = ProjectedCrs.FromWkt(code, SpatialReferenceTable.ProjectedRows().Single(r => r.Authority == "EPSG" && r.Code == code).WellKnownText);
        var pasted = ProjectedCrs.FromWkt(0, Projinfo(code));
        pasted.IsMade.ShouldBeTrue(pasted.Refusal);
        stored.IsMade.ShouldBeTrue(stored.Refusal);
        pasted.Crs!.FirstAxis.Direction.ShouldBe(stored.Crs!.FirstAxis.Direction);
        pasted.Crs.SecondAxis.Direction.ShouldBe(stored.Crs.SecondAxis.Direction);
        pasted.Crs.GeographicEpsgCode.ShouldBe(stored.Crs.GeographicEpsgCode);
        var area = stored.Crs.AreaOfUse!;
        foreach (var point in AgainstProjTests.Grid(area.SouthDegrees, area.NorthDegrees, area.WestDegrees, area.WestDegrees + area.WidthDegrees, 5))
        {
            var (first, second) = stored.Crs.ToWritten(stored.Crs.Project(point));
            if (double.IsNaN(first)) continue;
            var (pastedFirst, pastedSecond) = pasted.Crs.ToWritten(pasted.Crs.Project(point));
            pastedFirst.ShouldBe(first, 1e-5, $"{point}");
            pastedSecond.ShouldBe(second, 1e-5, $"{point}");
        }
    }

    [Fact]
    public void Every_cut_of_the_newer_form_is_refused_in_words()
    {
        var wkt = Projinfo(32631);
        for (var length = 0; length < wkt.TrimEnd().Length; length += 7) ProjectedCrs.FromWkt(0, wkt[..length]).Refusal.ShouldNotBeNullOrWhiteSpace($"cut after {length}");
    }

    [Fact]
    public void A_parameter_that_is_not_known_is_named() =>
        ProjectedCrs.FromWkt(0, Projinfo(32631).Replace("False easting", "Height of fancy")).Refusal!.ShouldContain("Height of fancy");

    [Theory]
    [InlineData("BOUNDCRS[SOURCECRS[PROJCRS[\"a\"]]]", "datum shift")]
    [InlineData("PROJCRS[\"a\",CONVERSION[\"b\"]]", "datum and ellipsoid")]
    [InlineData("GEOGCRS[\"WGS 84\"]", "geographic system")]
    public void What_the_newer_form_lacks_is_told(string text, string expected) => ProjectedCrs.FromWkt(0, text).Refusal!.ShouldContain(expected);

    private static string Projinfo(int code)
    {
        var start = new ProcessStartInfo("projinfo", [$"EPSG:{code}", "-o", "WKT2:2019", "--single-line", "-q"]) { RedirectStandardOutput = true };
        using var process = Process.Start(start) ?? throw new InvalidOperationException("projinfo did not start; it comes with Debian's package proj-bin.");
        var text = process.StandardOutput.ReadToEnd().Trim();
        process.WaitForExit();
        process.ExitCode.ShouldBe(0);
        return text;
    }
}
