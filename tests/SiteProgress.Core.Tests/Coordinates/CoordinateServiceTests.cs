using Shouldly;
using SiteProgress.Core.Coordinates;
using Xunit;

namespace SiteProgress.Core.Tests.Coordinates;

public sealed class CoordinateServiceTests
{
    private static readonly CoordinateService Service = new(
        SimilarityFit.Solve(SimilarityFitTests.FiveMarks).Adjustment!, ReferenceFiles.System("gigs A1"));

    [Fact]
    public void Site_grid_to_geographic_and_back_closes_within_a_micrometre_for_any_number_of_points()
    {
        var random = new Random(20260412);
        foreach (var count in new[] { 0, 1, 511, 512, 513, 2000 })
        {
            var site = new SiteCoordinate[count];
            for (var i = 0; i < count; i++) site[i] = new(random.NextDouble() * 3000 - 1000, random.NextDouble() * 3000 - 1000);
            var geographic = new GeographicCoordinate[count];
            var back = new SiteCoordinate[count];
            Service.SiteToGeographic(site, geographic);
            Service.GeographicToSite(geographic, back);
            for (var i = 0; i < count; i++)
            {
                back[i].XMetres.ShouldBe(site[i].XMetres, 1e-6);
                back[i].YMetres.ShouldBe(site[i].YMetres, 1e-6);
                Service.ToGeographic(site[i]).ShouldBe(geographic[i]);
                Service.ToSite(geographic[i]).ShouldBe(back[i]);
            }
        }
    }

    [Fact]
    public void Batch_and_single_conversions_give_the_same_numbers()
    {
        SiteCoordinate[] site = [new(10, 20), new(30, 40)];
        var projected = new ProjectedCoordinate[2];
        Service.SiteToProjected(site, projected);
        projected[1].ShouldBe(Service.ToProjected(site[1]));
        var geographic = new GeographicCoordinate[2];
        Service.ProjectedToGeographic(projected, geographic);
        geographic[1].ShouldBe(Service.ToGeographic(projected[1]));
        Service.GeographicToProjected(geographic, projected);
        projected[1].ShouldBe(Service.ToProjected(geographic[1]));
        Service.ProjectedToSite(projected, site);
        site[1].ShouldBe(Service.ToSite(projected[1]));
        site[1].XMetres.ShouldBe(30, 1e-6);
    }

    [Fact]
    public void Spans_of_different_length_are_a_programming_mistake() =>
        Should.Throw<ArgumentException>(() => Service.SiteToProjected(new SiteCoordinate[2], new ProjectedCoordinate[1]));

    [Fact]
    public void A_batch_allocates_nothing_per_point()
    {
        var site = new SiteCoordinate[100_000];
        var geographic = new GeographicCoordinate[site.Length];
        Service.SiteToGeographic(site, geographic);
        var before = GC.GetAllocatedBytesForCurrentThread();
        Service.SiteToGeographic(site, geographic);
        Service.GeographicToSite(geographic, site);
        (GC.GetAllocatedBytesForCurrentThread() - before).ShouldBeLessThan(100_000);
    }
}
