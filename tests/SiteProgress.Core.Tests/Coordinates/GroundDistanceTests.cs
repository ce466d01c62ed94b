using Shouldly;
using SiteProgress.Core.Coordinates;
using Xunit;

namespace SiteProgress.Core.Tests.Coordinates;

public sealed class GroundDistanceTests
{
    private static readonly ProjectedCoordinate Flinders = new(273741.297, 5796489.777);
    private static readonly ProjectedCoordinate Buninyong = new(228854.051, 5828259.038);

    [Fact]
    public void The_line_of_the_Australian_geodetic_manual_has_its_ellipsoidal_length()
    {
        // Flinders Peak to Buninyong: 54 972.271 m (Australian geodetic manual; T. Vincenty, Survey Review 23, 1975); plane 54 992.279 m.
        var line = GroundDistance.Between(ReferenceFiles.System("mga55"), Flinders, Buninyong).ShouldNotBeNull();
        line.GridMetres.ShouldBe(54992.279, 0.002);
        line.EllipsoidMetres.ShouldBe(54972.271, 0.003);
        line.GroundMetres.ShouldBe(line.EllipsoidMetres);
    }

    [Theory]
    [InlineData(0, 0.99960000)]
    [InlineData(40, 0.99959372)]
    public void Height_enters_by_the_combined_factor(double height, double combined)
    {
        // Combined factor for k = 0.9996 on a mean radius of 6371 km (textbook formula k R / (R + h)).
        var crs = ReferenceFiles.System("gigs A1");
        var at = crs.Project(new(52, 3));
        var line = GroundDistance.Between(crs, at, new(at.EastingMetres, at.NorthingMetres + 500), height)!.Value;
        (line.GridMetres / line.GroundMetres).ShouldBe(combined, 2e-8);
    }

    [Fact]
    public void A_line_too_long_or_on_a_grid_that_is_not_conformal_has_no_ground_distance()
    {
        var crs = ReferenceFiles.System("mga55");
        GroundDistance.Between(crs, Flinders, new(Flinders.EastingMetres + 200_000, Flinders.NorthingMetres)).ShouldBeNull();
        var equalArea = ReferenceFiles.System("gigs G16");
        var at = equalArea.Project(new(65, 25));
        GroundDistance.Between(equalArea, at, new(at.EastingMetres + 100, at.NorthingMetres)).ShouldBeNull();
    }
}
