using System.Text.RegularExpressions;
using Shouldly;
using SiteProgress.Bench.Coordinates;
using SiteProgress.Core.Coordinates;
using Xunit;

namespace SiteProgress.Core.Tests.Coordinates;

/// <summary>
/// Systems as PostGIS's table stores them, over their areas of use, against the installed PROJ under the same code. A fixed sample with
/// every supported method; ./bench coordinates compares all rows.
/// </summary>
public sealed partial class StoredSystemsTests
{
    private static readonly Lazy<Dictionary<int, string>> Table = new(() => SpatialReferenceTable.ProjectedRows()
        .Where(row => row.Authority == "EPSG").ToDictionary(row => row.Code, row => row.WellKnownText));

    public static TheoryData<int> Sample => [.. new[]
    {
        32631, 32654, 32754, 27700, 2193, 3414, 6677, 2326, 3826, 5179, 29902, 28355, 31467, 3346, 2100, 3765, 4509, 2180, 26716, 3908, 4647, 22175,
        2046, 2049, 29371, // south-orientated
        2154, 31370, 2230, 3112, 3034, 2921, 3568, // Lambert conformal conic, with feet; cs2cs reads no grads, those stand among the GIGS values
        3375, 3376, 3168, 29873, 3078, 2056, 21781, 23700, // oblique Mercators
        28992, 2036, 3120, // oblique stereographic
        3031, 3413, 32661, 5041, 3032, // polar stereographic
        5513, 5514, 2065, 5221, // Krovak
        27200, // New Zealand Map Grid
        3395, 3001, 5330, 3388, 3857, 3832, // Mercators
        2314, 24500, 28191, 3377, // Cassini
        5880, 5472, 29101, // polyconic
        5070, 3577, 3005, 3035, 3571, 3409, 6933, 3410, // equal area
        2931, 24370, 24382, 2934, // other prime meridians and units
    }];

    [Theory]
    [MemberData(nameof(Sample))]
    public void A_stored_system_agrees_with_PROJ_to_a_tenth_of_a_millimetre_over_its_area_and_closes_to_a_hundredth(int code)
    {
        var wkt = Table.Value[code];
        var made = ProjectedCrs.FromWkt(code, wkt);
        made.IsMade.ShouldBeTrue(made.Refusal);
        var crs = made.Crs!;
        var area = crs.AreaOfUse!;
        var east = area.WestDegrees + area.WidthDegrees;
        var points = AgainstProjTests.Grid(area.SouthDegrees, area.NorthDegrees, area.WestDegrees, east, 7);
        var theirs = AgainstProjTests.Cs2cs(GeographicCode(wkt), $"EPSG:{code}", points.Select(p => AsWritten(crs, p)), decimals: 7);
        var there = new ProjectedCoordinate[points.Length];
        var back = new GeographicCoordinate[points.Length];
        crs.Projection.Forward(points, there);
        crs.Projection.Inverse(there, back);
        var compared = 0;
        for (var i = 0; i < points.Length; i++)
        {
            if (!double.IsFinite(theirs[i].First)) continue;
            compared++;
            var (first, second) = crs.ToWritten(there[i]);
            (first * crs.Unit.Metres).ShouldBe(theirs[i].First * crs.Unit.Metres, 1e-4, $"{crs.Name} at {points[i]}");
            (second * crs.Unit.Metres).ShouldBe(theirs[i].Second * crs.Unit.Metres, 1e-4, $"{crs.Name} at {points[i]}");
            back[i].LatitudeDegrees.ShouldBe(points[i].LatitudeDegrees, 9e-11, $"{crs.Name} at {points[i]}");
            (Math.IEEERemainder(back[i].LongitudeDegrees - points[i].LongitudeDegrees, 360) * Math.Cos(points[i].LatitudeDegrees * Math.PI / 180))
                .ShouldBe(0, 9e-11, $"{crs.Name} at {points[i]}");
        }

        compared.ShouldBeGreaterThan(points.Length / 2);
    }

    [Theory]
    [InlineData(3167, "765 km")] // chains: the table's false easting does not belong to its unit
    [InlineData(31300, "EPSG:31370 is the same grid")]
    [InlineData(22700, "near-conformal")]
    [InlineData(3064, "0.121 mm")] // the table still has GRS80 where the register has WGS 84
    public void A_stored_definition_that_does_not_reproduce_the_register_is_refused_with_what_was_found(int code, string reason) =>
        ProjectedCrs.FromWkt(code, Table.Value[code]).Refusal!.ShouldContain(reason);

    [Fact]
    public void A_code_that_is_not_in_the_register_is_refused() =>
        ProjectedCrs.FromWkt(999_999, ReferenceFiles.Definition("gigs A1")).Refusal!.ShouldContain("not in the register");

    [Theory]
    [InlineData(2193, "N", AxisDirection.North)] // the table stores no axes for it
    [InlineData(6677, "X", AxisDirection.North)]
    [InlineData(32654, "E", AxisDirection.East)]
    [InlineData(2065, "X", AxisDirection.South)]
    [InlineData(3031, "E", AxisDirection.East)]
    [InlineData(32661, "N", AxisDirection.North)]
    public void Axes_come_from_the_register_in_its_order(int code, string name, AxisDirection direction) =>
        ProjectedCrs.FromWkt(code, Table.Value[code]).Crs!.FirstAxis.ShouldBe(new CrsAxis(name, direction));

    [Fact]
    public void A_point_outside_the_area_of_use_is_told_with_its_distance()
    {
        var area = ProjectedCrs.FromWkt(32631, Table.Value[32631]).Crs!.AreaOfUse!;
        area.Contains(new(52, 3)).ShouldBeTrue();
        // One degree of longitude at 52 degrees of latitude is 68.5 km on a sphere of 6371 km.
        area.DistanceOutsideMetres(new(52, 7)).ShouldBe(68_457, 200);
        area.DistanceOutsideMetres(new(52, -1)).ShouldBe(68_457, 200);
        area.DistanceOutsideMetres(new(-1, 3)).ShouldBe(111_195, 200);
        double.IsNaN(area.DistanceOutsideMetres(new(double.NaN, 3))).ShouldBeTrue();
        var newZealand = new AreaOfUse(-60, 160, -20, -170);
        newZealand.Contains(new(-40, 179)).ShouldBeTrue();
        newZealand.Contains(new(-40, -179)).ShouldBeTrue();
        newZealand.Contains(new(-40, 150)).ShouldBeFalse();
    }

    /// <summary>A position as the register writes the geographic system: latitude first, in degrees, from its own meridian.</summary>
    private static (double First, double Second) AsWritten(ProjectedCrs crs, GeographicCoordinate point) =>
        (point.LatitudeDegrees, point.LongitudeDegrees - crs.PrimeMeridian.GreenwichLongitudeDegrees);

    private static string GeographicCode(string wkt) => "EPSG:" + Geographic().Match(wkt).Groups[1].Value;

    [GeneratedRegex("AUTHORITY\\[\"EPSG\",\"(\\d+)\"\\]\\],PROJECTION")]
    private static partial Regex Geographic();
}
