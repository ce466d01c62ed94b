using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;

namespace SiteProgress.Core.Bias;

/// <summary>Hotelling's one-sample test: may the mean of several measured quantities be zero (or another given mean)?</summary>
/// <param name="TSquared">n (mean)' S^-1 (mean).</param>
/// <param name="Probability">Chance of so large a value, or a larger one, when there is no bias; 1 where the test cannot be made.</param>
/// <remarks>T² p (n-1)/(n-p) F(p, n-p). Hotelling, The generalization of Student's ratio, Annals of Mathematical Statistics 2 (1931)
/// 360-378; NIST/SEMATECH e-Handbook of Statistical Methods, 6.5.4.3.</remarks>
public sealed record Hotelling(double TSquared, double Probability)
{
    /// <summary>The test of pairs of values.</summary>
    /// <param name="first">First component of each observation.</param>
    /// <param name="second">Second component.</param>
    /// <param name="meanFirst">Mean that is asked about.</param>
    /// <param name="meanSecond">Mean that is asked about.</param>
    public static Hotelling Of(ReadOnlySpan<double> first, ReadOnlySpan<double> second, double meanFirst = 0, double meanSecond = 0)
    {
        int n = first.Length;
        if (n < 3) return new Hotelling(0, 1);
        (double x, double y) = (Mean(first), Mean(second));
        double xx = 0, yy = 0, xy = 0;
        for (int index = 0; index < n; index++)
        {
            (double a, double b) = (first[index] - x, second[index] - y);
            (xx, yy, xy) = (xx + (a * a), yy + (b * b), xy + (a * b));
        }

        Matrix<double> covariance = Matrix<double>.Build.DenseOfArray(new[,] { { xx, xy }, { xy, yy } }) / (n - 1);
        return Of(n, Vector<double>.Build.Dense([x - meanFirst, y - meanSecond]), covariance);
    }

    /// <summary>The test from a mean and a covariance.</summary>
    /// <param name="n">How many observations.</param>
    /// <param name="difference">Mean of the observations less the mean that is asked about.</param>
    /// <param name="covariance">Covariance of the observations with n - 1.</param>
    internal static Hotelling Of(int n, Vector<double> difference, Matrix<double> covariance)
    {
        int p = difference.Count;
        double determinant = covariance.Determinant();
        double scale = 1;
        for (int index = 0; index < p; index++) scale *= covariance[index, index];
        if (n <= p || !(determinant > 1e-12 * scale)) return new Hotelling(0, 1);
        double tSquared = n * difference.DotProduct(covariance.Solve(difference));
        return new Hotelling(tSquared, UpperTail(p, n - p, tSquared * (n - p) / (p * (n - 1.0))));
    }

    /// <summary>T² that is exceeded with a given chance when there is no bias.</summary>
    /// <param name="p">Quantities.</param>
    /// <param name="n">Observations.</param>
    /// <param name="chance">The chance, such as 0.05.</param>
    public static double Limit(int p, int n, double chance) => p * (n - 1.0) / (n - p) * FisherSnedecor.InvCDF(p, n - p, 1 - chance);

    /// <summary>Chance that F with these degrees of freedom exceeds a value; kept above the smallest number a double can tell from 0.</summary>
    internal static double UpperTail(double between, double within, double f)
    {
        if (!(f > 0)) return 1;
        // The beta function's complement keeps its digits where 1 - CDF would be rounded to nothing.
        double tail = MathNet.Numerics.SpecialFunctions.BetaRegularized(within / 2, between / 2, within / (within + (between * f)));
        return Math.Clamp(tail, 1e-300, 1);
    }

    private static double Mean(ReadOnlySpan<double> values)
    {
        double sum = 0;
        foreach (double value in values) sum += value;
        return sum / values.Length;
    }
}
