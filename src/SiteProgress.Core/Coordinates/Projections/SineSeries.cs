namespace SiteProgress.Core.Coordinates.Projections;

/// <summary>Series c1 sin 2x + c2 sin 4x + ..., in which every latitude of the ellipsoid is written as a function of another.</summary>
internal static class SineSeries
{
    /// <summary>The sum, by Clenshaw's recurrence.</summary>
    public static double Sum(double[] coefficients, double x)
    {
        var (sin, cos) = Math.SinCos(2 * x);
        return Sum(coefficients, sin, cos);
    }

    /// <summary>The sum from sin 2x and cos 2x.</summary>
    public static double Sum(double[] coefficients, double sine, double cosine)
    {
        double factor = 2 * cosine, b1 = 0, b2 = 0;
        for (var k = coefficients.Length - 1; k >= 0; k--) (b1, b2) = (factor * b1 - b2 + coefficients[k], b1);
        return b1 * sine;
    }

    /// <summary>
    /// Coefficients of an odd function of period pi from its values, by the discrete sine transform. For the smooth latitude functions
    /// of the ellipsoid 24 values a quarter turn leave nothing but rounding.
    /// </summary>
    public static double[] Fit(Func<double, double> function, int order)
    {
        const int Count = 24;
        var coefficients = new double[order];
        for (var j = 1; j < Count; j++)
        {
            var x = Math.PI / 2 * j / Count;
            var value = function(x);
            for (var k = 0; k < order; k++) coefficients[k] += value * Math.Sin(2 * (k + 1) * x) * 2 / Count;
        }

        return coefficients;
    }
}
