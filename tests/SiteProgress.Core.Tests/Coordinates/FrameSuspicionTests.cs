using Shouldly;
using SiteProgress.Core.Coordinates;
using Xunit;

namespace SiteProgress.Core.Tests.Coordinates;

/// <summary>An invented site at 52 degrees north, 4 degrees east in UTM zone 31; what people type for it by mistake.</summary>
public sealed class FrameSuspicionTests
{
    private const double Reach = 5_000;
    private static readonly ProjectedCrs Crs = ReferenceFiles.System("gigs A1");
    private static readonly GeographicCoordinate Place = new(52, 4);
    private static readonly ProjectedCoordinate Point = Crs.Project(Place);

    public static TheoryData<double, double, string> Projected => new()
    {
        { Point.NorthingMetres, Point.EastingMetres, "Easting and northing look swapped" },
        { 4, 52, "longitude and latitude in degrees" },
        { 52, 4, "latitude and longitude in degrees" },
        { Point.EastingMetres / 0.3048, Point.NorthingMetres / 0.3048, "look like feet" },
        { -Point.EastingMetres, -Point.NorthingMetres, "signs look reversed" },
        { 31_000_000 + Point.EastingMetres, Point.NorthingMetres, "zone number" },
    };

    [Theory]
    [MemberData(nameof(Projected))]
    public void A_projected_point_far_from_the_site_is_told_what_it_looks_like(double easting, double northing, string expected) =>
        FrameSuspicion.Explain(Crs, new ProjectedCoordinate(easting, northing), Place, Reach).ShouldNotBeNull().ShouldContain(expected);

    [Fact]
    public void The_published_pair_of_zones_31_and_32_is_recognised()
    {
        // 50 N 6 E is 714984.237, 5542944.018 in zone 31 and 285015.763, 5542944.018 in zone 32 (recomputed with PROJ 9.1.1).
        var place = Crs.Unproject(new(714984.237, 5542944.018));
        place.LatitudeDegrees.ShouldBe(50, 1e-8);
        place.LongitudeDegrees.ShouldBe(6, 1e-8);
        FrameSuspicion.Explain(Crs, new ProjectedCoordinate(285015.763, 5542944.018), place, Reach)
            .ShouldNotBeNull().ShouldContain("neighbouring zone, whose central meridian lies 6 degrees further east");
    }

    [Theory]
    [InlineData(4, 52, "swapped")]
    [InlineData(52, -4, "longitude's sign")]
    [InlineData(-52, 4, "latitude's sign")]
    [InlineData(0.9075712110370514, 0.06981317007977318, "radians")]
    [InlineData(57.77777777777778, 4.444444444444445, "grads")]
    public void A_position_far_from_the_site_is_told_what_it_looks_like(double latitude, double longitude, string expected) =>
        FrameSuspicion.Explain(Crs, new GeographicCoordinate(latitude, longitude), Place, Reach).ShouldNotBeNull().ShouldContain(expected);

    [Fact]
    public void Metres_given_as_degrees_are_told() =>
        FrameSuspicion.Explain(Crs, new GeographicCoordinate(Point.NorthingMetres, Point.EastingMetres), Place, Reach)
            .ShouldNotBeNull().ShouldContain("easting and northing in metres");

    [Fact]
    public void A_point_at_the_site_and_a_point_that_looks_like_nothing_known_are_not_suspected()
    {
        FrameSuspicion.Explain(Crs, new ProjectedCoordinate(Point.EastingMetres + 3000, Point.NorthingMetres), Place, Reach).ShouldBeNull();
        FrameSuspicion.Explain(Crs, new ProjectedCoordinate(Point.EastingMetres + 50_000, Point.NorthingMetres), Place, Reach).ShouldBeNull();
        FrameSuspicion.Explain(Crs, new ProjectedCoordinate(double.NaN, 1), Place, Reach).ShouldBeNull();
    }
}
