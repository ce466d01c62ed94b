namespace SiteProgress.Core.Coordinates.Projections;

/// <summary>Krüger's series of the transverse Mercator projection to the sixth order in the third flattening n.</summary>
/// <remarks>
/// L. Krüger, Konforme Abbildung des Erdellipsoids in der Ebene (1912); coefficients to order six as in Karney (2011), equations 35 and 36.
/// Order six leaves a few nanometres within 35 degrees of the central meridian. The tests derive the same coefficients by numerical
/// integration of the meridian, without these polynomials.
/// </remarks>
internal sealed class KruegerSeries
{
    public KruegerSeries(Ellipsoid ellipsoid)
    {
        double n = ellipsoid.ThirdFlattening, n2 = n * n;
        RectifyingRadiusMetres = ellipsoid.SemiMajorMetres / (1 + n) * (1 + n2 / 4 * (1 + n2 / 16 * (1 + n2 / 4)));
        ToPlane =
        [
            Polynomial(n, 0, 1 / 2.0, -2 / 3.0, 5 / 16.0, 41 / 180.0, -127 / 288.0, 7891 / 37800.0),
            Polynomial(n, 0, 0, 13 / 48.0, -3 / 5.0, 557 / 1440.0, 281 / 630.0, -1983433 / 1935360.0),
            Polynomial(n, 0, 0, 0, 61 / 240.0, -103 / 140.0, 15061 / 26880.0, 167603 / 181440.0),
            Polynomial(n, 0, 0, 0, 0, 49561 / 161280.0, -179 / 168.0, 6601661 / 7257600.0),
            Polynomial(n, 0, 0, 0, 0, 0, 34729 / 80640.0, -3418889 / 1995840.0),
            Polynomial(n, 0, 0, 0, 0, 0, 0, 212378941 / 319334400.0),
        ];
        ToSphere =
        [
            Polynomial(n, 0, 1 / 2.0, -2 / 3.0, 37 / 96.0, -1 / 360.0, -81 / 512.0, 96199 / 604800.0),
            Polynomial(n, 0, 0, 1 / 48.0, 1 / 15.0, -437 / 1440.0, 46 / 105.0, -1118711 / 3870720.0),
            Polynomial(n, 0, 0, 0, 17 / 480.0, -37 / 840.0, -209 / 4480.0, 5569 / 90720.0),
            Polynomial(n, 0, 0, 0, 0, 4397 / 161280.0, -11 / 504.0, -830251 / 7257600.0),
            Polynomial(n, 0, 0, 0, 0, 0, 4583 / 161280.0, -108847 / 3991680.0),
            Polynomial(n, 0, 0, 0, 0, 0, 0, 20648693 / 638668800.0),
        ];
    }

    /// <summary>Radius of the circle as long as the meridian, metres.</summary>
    public double RectifyingRadiusMetres { get; }

    /// <summary>alpha 1 to 6: from the conformal sphere's transverse Mercator plane to the ellipsoid's.</summary>
    public double[] ToPlane { get; }

    /// <summary>beta 1 to 6: the way back; subtracted.</summary>
    public double[] ToSphere { get; }

    /// <summary>Sum of c_j sin(2 j z) for the complex z = x + iy, by Clenshaw's recurrence.</summary>
    public static (double Real, double Imaginary) Sum(double[] coefficients, double x, double y)
    {
        double sin = Math.Sin(2 * x), cos = Math.Cos(2 * x), sinh = Math.Sinh(2 * y), cosh = Math.Cosh(2 * y);
        double factorReal = 2 * cos * cosh, factorImaginary = -2 * sin * sinh;
        double r1 = 0, i1 = 0, r2 = 0, i2 = 0;
        for (var j = coefficients.Length - 1; j >= 0; j--)
        {
            var r0 = factorReal * r1 - factorImaginary * i1 - r2 + coefficients[j];
            var i0 = factorReal * i1 + factorImaginary * r1 - i2;
            (r2, i2, r1, i1) = (r1, i1, r0, i0);
        }

        double sineReal = sin * cosh, sineImaginary = cos * sinh;
        return (r1 * sineReal - i1 * sineImaginary, r1 * sineImaginary + i1 * sineReal);
    }

    private static double Polynomial(double n, params ReadOnlySpan<double> coefficients)
    {
        double sum = 0;
        for (var i = coefficients.Length - 1; i >= 0; i--) sum = sum * n + coefficients[i];
        return sum;
    }
}
