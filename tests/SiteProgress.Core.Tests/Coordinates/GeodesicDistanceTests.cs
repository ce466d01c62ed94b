using Shouldly;
using SiteProgress.Core.Coordinates;
using Xunit;

namespace SiteProgress.Core.Tests.Coordinates;

/// <summary>Ellipsoidal distances from projected coordinates against geodesics by GeographicLib; the file says how they were made and how to make them again.</summary>
public sealed class GeodesicDistanceTests
{
    public static TheoryData<string> Lines => [.. ReferenceFiles.Lines("geodesic-distances.csv").Skip(1)];

    [Theory]
    [MemberData(nameof(Lines))]
    public void The_ellipsoidal_distance_is_the_geodesic(string line)
    {
        var cells = line.Split(',');
        var crs = ReferenceFiles.System(cells[0]);
        crs.Ellipsoid.SemiMajorMetres.ShouldBe(Number(1));
        var length = Number(7);

        var measured = GroundDistance.Between(crs, crs.Project(new(Number(3), Number(4))), crs.Project(new(Number(5), Number(6)))).ShouldNotBeNull();

        // A millimetre over 50 km is what the docstring promises; the ends are given to 1e-8 degree, so short lines agree far better.
        measured.EllipsoidMetres.ShouldBe(length, length > 10_000 ? 1e-3 : 5e-5);

        double Number(int cell) => ReferenceFiles.Number(cells[cell]);
    }

    [Fact]
    public void At_least_three_hundred_outside_points_lines_and_shifts_stand_in_the_reference_files_each_with_its_source()
    {
        var files = Directory.EnumerateFiles(ReferenceFiles.Folder, "*.csv").ToArray();
        foreach (var file in files) File.ReadLines(file).ShouldContain(line => line.StartsWith("# source", StringComparison.Ordinal), file);
        files.Sum(file => ReferenceFiles.Lines(Path.GetFileName(file)).Count() - 1).ShouldBeGreaterThanOrEqualTo(300);
    }
}
