using System.Runtime.Intrinsics;
using Shouldly;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Coordinates.Projections;
using Xunit;

namespace SiteProgress.Core.Tests.Coordinates;

/// <summary>The arrangement for four points at once against the plain formulas and the system's own functions, each with its error bound.</summary>
public sealed class FastTransverseMercatorTests
{
    private static readonly ProjectedCrs Crs = ReferenceFiles.System("gigs A1");

    public static TheoryData<string, double> Functions => new()
    {
        { "sine", Math.PI / 2 }, { "cosine", Math.PI / 2 }, { "small sine", 0.36 }, { "small versine", 0.36 }, { "small sinh", 0.37 },
        { "small cosh", 0.37 }, { "small atanh", 0.35 }, { "small atan", 0.375 }, { "tiny atan", 0.04 }, { "tiny sine", 0.01 }, { "tiny cosine", 0.01 },
        { "tiny sinh", 0.01 }, { "tiny cosh", 0.01 },
    };

    [Theory]
    [MemberData(nameof(Functions))]
    public void Each_elementary_function_is_right_to_the_rounding_of_a_double(string name, double largest)
    {
        for (var k = -2000; k <= 2000; k++)
        {
            var x = largest * k / 2000;
            Ours(name, Vector256.Create(x)).ShouldBe(Reference(name, x), 4e-16, $"{name} of {x:R}");
        }
    }

    [Fact]
    public void Four_points_at_once_agree_with_the_plain_series_within_ten_nanometres()
    {
        var random = new Random(7);
        var plain = new KruegerSeries(Crs.Ellipsoid);
        var radius = plain.RectifyingRadiusMetres * 0.9996;
        for (var i = 0; i < 100_000; i++)
        {
            GeographicCoordinate point = new(random.NextDouble() * 180 - 90, 3 + random.NextDouble() * 40 - 20);
            double latitude = point.LatitudeDegrees * Math.PI / 180, longitude = (point.LongitudeDegrees - 3) * Math.PI / 180;
            var conformal = ConformalLatitude.TangentFromGeodetic(Math.Tan(latitude), Crs.Ellipsoid.Eccentricity);
            double xi = Math.Atan2(conformal, Math.Cos(longitude)), eta = Math.Asinh(Math.Sin(longitude) / Math.Sqrt(conformal * conformal + Math.Pow(Math.Cos(longitude), 2)));
            var (dXi, dEta) = KruegerSeries.Sum(plain.ToPlane, xi, eta);
            var there = ProjectionReferenceTests.Forward(Crs, point);
            there.EastingMetres.ShouldBe(500_000 + radius * (eta + dEta), 1e-8, $"{point}");
            there.NorthingMetres.ShouldBe(radius * (xi + dXi), 1e-8, $"{point}");
            var back = ProjectionReferenceTests.Inverse(Crs, there);
            back.LatitudeDegrees.ShouldBe(point.LatitudeDegrees, 1e-13, $"{point}");
            ((back.LongitudeDegrees - point.LongitudeDegrees) * Math.Cos(latitude)).ShouldBe(0, 1e-13, $"{point}");
        }
    }

    [Theory]
    [InlineData(0)]
    [InlineData(35.5)]
    [InlineData(-60)]
    [InlineData(85)]
    [InlineData(89.999)]
    public void Nothing_jumps_where_the_fast_arrangement_ends(double latitude)
    {
        foreach (var side in new[] { -1, 1 })
        {
            // The two points are 0.22 micrometres apart on the ground.
            var edge = FastTransverseMercator.LargestLongitude * 180 / Math.PI;
            var inside = ProjectionReferenceTests.Forward(Crs, new(latitude, 3 + side * (edge - 1e-12)));
            var outside = ProjectionReferenceTests.Forward(Crs, new(latitude, 3 + side * (edge + 1e-12)));
            outside.EastingMetres.ShouldBe(inside.EastingMetres, 3e-7);
            outside.NorthingMetres.ShouldBe(inside.NorthingMetres, 3e-7);
            ProjectionReferenceTests.Inverse(Crs, outside).LongitudeDegrees.ShouldBe(3 + side * edge, 1e-9);
        }
    }

    [Fact]
    public void A_points_digits_do_not_depend_on_its_batch()
    {
        var random = new Random(11);
        var points = new GeographicCoordinate[203];
        for (var i = 0; i < points.Length; i++) points[i] = new(random.NextDouble() * 170 - 85, random.NextDouble() * 160 - 80); // both arrangements, and refused ones
        var projected = new ProjectedCoordinate[points.Length];
        var back = new GeographicCoordinate[points.Length];
        Crs.Projection.Forward(points, projected);
        Crs.Projection.Inverse(projected, back);
        for (var i = 0; i < points.Length; i++)
        {
            ProjectionReferenceTests.Forward(Crs, points[i]).ShouldBe(projected[i]);
            ProjectionReferenceTests.Inverse(Crs, projected[i]).ShouldBe(back[i]);
        }

        projected.Count(p => double.IsNaN(p.EastingMetres)).ShouldBeInRange(1, points.Length / 2);
    }

    [Fact]
    public void Longitudes_come_out_between_minus_180_and_180_on_either_side_of_the_180th_meridian()
    {
        var crs = ProjectedCrs.FromWkt(0, ReferenceFiles.Definition("gigs A1").Replace("\"central_meridian\",3", "\"central_meridian\",177")).Crs!;
        foreach (var longitude in new[] { 175, 179.999999, -179.999999, -177.5 })
        {
            var there = ProjectionReferenceTests.Forward(crs, new(-17, longitude));
            ProjectionReferenceTests.Inverse(crs, there).LongitudeDegrees.ShouldBe(longitude, 1e-12);
        }
    }

    private static double Ours(string name, Vector256<double> x) => (name switch
    {
        "sine" => FastSeries.SineCosine(x).Sine,
        "cosine" => FastSeries.SineCosine(x).Cosine,
        "small sine" => FastSeries.SmallSineVersine(x).Sine,
        "small versine" => FastSeries.SmallSineVersine(x).Versine,
        "small sinh" => FastSeries.SmallHyperbolic(x).Sine,
        "small cosh" => FastSeries.SmallHyperbolic(x).CosineMinusOne,
        "small atanh" => FastSeries.SmallInverseHyperbolicTangent(x),
        "small atan" => FastSeries.SmallInverseTangent(x),
        "tiny atan" => FastSeries.TinyInverseTangent(x),
        "tiny sine" => FastSeries.TinySineCosine(x).Sine,
        "tiny cosine" => FastSeries.TinySineCosine(x).Cosine,
        "tiny sinh" => FastSeries.TinyHyperbolic(x).Sine,
        _ => FastSeries.TinyHyperbolic(x).Cosine,
    }).ToScalar();

    private static double Reference(string name, double x) => name switch
    {
        "sine" or "small sine" or "tiny sine" => Math.Sin(x),
        "cosine" or "tiny cosine" => Math.Cos(x),
        "small versine" => 2 * Math.Pow(Math.Sin(x / 2), 2),
        "small sinh" or "tiny sinh" => Math.Sinh(x),
        "small cosh" => 2 * Math.Pow(Math.Sinh(x / 2), 2),
        "small atanh" => Math.Atanh(x),
        "small atan" or "tiny atan" => Math.Atan(x),
        _ => Math.Cosh(x),
    };
}
