using System.Numerics;

namespace SiteProgress.Core.Coordinates.Projections;

/// <summary>New Zealand Map Grid (EPSG 9811): a complex polynomial that fits New Zealand with least change of scale.</summary>
/// <remarks>
/// W. I. Reilly, A conformal mapping projection with minimum scale error, Survey Review 22 (1973); coefficients as IOGP Guidance Note 7-2
/// and Land Information New Zealand print them. The inverse is carried on by Newton's method until it meets the forward polynomial.
/// </remarks>
internal sealed class NewZealandMapGrid(ProjectionFrame frame, double latitudeOfOriginDegrees) : Projection(frame)
{
    // Isometric latitude difference from latitude difference in units of 10^5 seconds.
    private static readonly double[] A =
        [0.6399175073, -0.1358797613, 0.063294409, -0.02526853, 0.0117879, -0.0055161, 0.0026906, -0.001333, 0.00067, -0.00034];

    private static readonly Complex[] B =
    [
        new(0.7557853228, 0), new(0.249204646, 0.003371507), new(-0.001541739, 0.041058560),
        new(-0.10162907, 0.01727609), new(-0.26623489, -0.36249218), new(-0.6870983, -1.1651967),
    ];

    private const double UnitsPerRadian = 180 / Math.PI * 3600 * 1e-5;
    private readonly double origin = latitudeOfOriginDegrees * RadiansPerDegree;

    public override string MethodName => "New Zealand Map Grid";

    protected override (double East, double North) Project(double latitude, double longitude)
    {
        // The polynomial is a fit to New Zealand; further away it means nothing.
        if (Math.Abs(latitude - origin) > 0.35 || Math.Abs(longitude) > 0.35) return (double.NaN, double.NaN);
        var z = Polynomial(new Complex(Isometric((latitude - origin) * UnitsPerRadian).Value, longitude)).Value;
        return (Frame.Ellipsoid.SemiMajorMetres * z.Imaginary, Frame.Ellipsoid.SemiMajorMetres * z.Real);
    }

    protected override (double Latitude, double Longitude) Unproject(double east, double north)
    {
        var z = new Complex(north, east) / Frame.Ellipsoid.SemiMajorMetres;
        if (!(Complex.Abs(z) < 0.4)) return (double.NaN, double.NaN);
        var theta = z / B[0];
        for (var i = 0; i < 12; i++)
        {
            var (value, slope) = Polynomial(theta);
            theta -= (value - z) / slope;
        }

        var units = theta.Real / A[0];
        for (var i = 0; i < 12; i++)
        {
            var (value, slope) = Isometric(units);
            units -= (value - theta.Real) / slope;
        }

        return (origin + units / UnitsPerRadian, theta.Imaginary);
    }

    private static (double Value, double Slope) Isometric(double units)
    {
        double value = 0, slope = 0;
        for (var i = A.Length - 1; i >= 0; i--)
        {
            slope = slope * units + value;
            value = value * units + A[i];
        }

        return (value * units, slope * units + value);
    }

    private static (Complex Value, Complex Slope) Polynomial(Complex theta)
    {
        Complex value = 0, slope = 0;
        for (var i = B.Length - 1; i >= 0; i--)
        {
            slope = slope * theta + value;
            value = value * theta + B[i];
        }

        return (value * theta, slope * theta + value);
    }
}
