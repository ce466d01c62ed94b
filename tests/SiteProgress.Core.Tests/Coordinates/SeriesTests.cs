using Shouldly;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Coordinates.Projections;
using Xunit;

namespace SiteProgress.Core.Tests.Coordinates;

/// <summary>
/// The series behind the projections, derived a second time from their definitions: the meridian is integrated numerically and the
/// coefficients are found by a discrete sine transform, so that a slip in a printed polynomial cannot hide.
/// </summary>
public sealed class SeriesTests
{
    private static readonly Ellipsoid Grs80 = Ellipsoid.FromInverseFlattening("GRS 1980", 6378137, 298.257222101);
    private static readonly Ellipsoid Clarke = Ellipsoid.FromInverseFlattening("Clarke 1880 (RGS)", 6378249.145, 293.465);

    public static TheoryData<double, double> Ellipsoids => new() { { 6378137, 298.257222101 }, { 6378249.145, 293.465 } };

    [Fact]
    public void The_quarter_meridian_of_GRS80_has_its_published_length() =>
        // H. Moritz, Geodetic Reference System 1980, Journal of Geodesy 74 (2000): meridian quadrant 10 001 965.7293 m.
        new MeridianDistance(Grs80).Metres(Math.PI / 2).ShouldBe(10_001_965.7293, 1e-4) /* the source's last digit is off by one */;

    [Theory]
    [MemberData(nameof(Ellipsoids))]
    public void Meridian_distance_equals_the_integral_of_the_radius_of_curvature(double semiMajor, double inverseFlattening)
    {
        var ellipsoid = Ellipsoid.FromInverseFlattening("", semiMajor, inverseFlattening);
        var meridian = new MeridianDistance(ellipsoid);
        foreach (var degrees in new[] { -90.0, -37.5, 0, 1, 23.4, 45, 52.1, 89.9, 90 })
        {
            var latitude = degrees * Math.PI / 180;
            var metres = Integral(ellipsoid.MeridianRadiusMetres, latitude);
            meridian.Metres(latitude).ShouldBe(metres, 2e-8);
            meridian.Latitude(metres).ShouldBe(latitude, 3e-15);
        }
    }

    [Theory]
    [MemberData(nameof(Ellipsoids))]
    public void Krueger_coefficients_are_those_that_turn_conformal_latitude_into_meridian_distance_and_back(double semiMajor, double inverseFlattening)
    {
        var ellipsoid = Ellipsoid.FromInverseFlattening("", semiMajor, inverseFlattening);
        var series = new KruegerSeries(ellipsoid);
        var quarter = Integral(ellipsoid.MeridianRadiusMetres, Math.PI / 2);
        series.RectifyingRadiusMetres.ShouldBe(quarter * 2 / Math.PI, 2e-8);
        double Rectifying(double conformal)
        {
            var geodetic = Math.Atan(ConformalLatitude.TangentToGeodetic(Math.Tan(conformal), ellipsoid.Eccentricity));
            return Integral(ellipsoid.MeridianRadiusMetres, geodetic) / quarter * Math.PI / 2;
        }

        // 1e-15 is the rounding of angles near 1 in this derivation; it is 6 nm on the earth.
        var toPlane = SineSeries.Fit(conformal => Rectifying(conformal) - conformal, 6);
        for (var i = 0; i < 6; i++) series.ToPlane[i].ShouldBe(toPlane[i], 1e-15, $"alpha {i + 1}");
        var meridian = new MeridianDistance(ellipsoid);
        var toSphere = SineSeries.Fit(rectifying =>
        {
            var geodetic = meridian.Latitude(rectifying * quarter * 2 / Math.PI);
            return rectifying - Math.Atan(ConformalLatitude.TangentFromGeodetic(Math.Tan(geodetic), ellipsoid.Eccentricity));
        }, 6);
        for (var i = 0; i < 6; i++) series.ToSphere[i].ShouldBe(toSphere[i], 1e-15, $"beta {i + 1}");
    }

    [Fact]
    public void Authalic_latitude_closes_to_the_last_digits_at_the_poles_too()
    {
        foreach (var ellipsoid in new[] { Grs80, Clarke })
        {
            var authalic = new AuthalicLatitude(ellipsoid);
            authalic.FromGeodetic(Math.PI / 2).ShouldBe(Math.PI / 2, 1e-15);
            for (var degrees = -90.0; degrees <= 90; degrees += 7.5)
                authalic.ToGeodetic(authalic.FromGeodetic(degrees * Math.PI / 180)).ShouldBe(degrees * Math.PI / 180, 3e-15);
        }

        // Moritz (2000): the sphere of the same area as GRS80 has the radius 6 371 007.1810 m; its last digit is off by one.
        new AuthalicLatitude(Grs80).RadiusMetres.ShouldBe(6_371_007.1810, 1.5e-4);
    }

    [Fact]
    public void Curvature_of_GRS80_at_the_pole_is_published() =>
        // Moritz (2000): polar radius of curvature 6 399 593.6259 m.
        Grs80.MeridianRadiusMetres(Math.PI / 2).ShouldBe(6_399_593.6259, 5e-5);

    /// <summary>Gauss-Legendre quadrature of five points over 64 equal parts, from 0 to the end.</summary>
    private static double Integral(Func<double, double> function, double end)
    {
        double[] nodes = [0, 0.5384693101056831, 0.9061798459386640];
        double[] weights = [0.5688888888888889, 0.4786286704993665, 0.2369268850561891];
        const int Parts = 64;
        double half = end / Parts / 2, sum = 0;
        for (var part = 0; part < Parts; part++)
        {
            var middle = half * (2 * part + 1);
            sum += weights[0] * function(middle);
            for (var i = 1; i < 3; i++) sum += weights[i] * (function(middle - half * nodes[i]) + function(middle + half * nodes[i]));
        }

        return sum * half;
    }
}
