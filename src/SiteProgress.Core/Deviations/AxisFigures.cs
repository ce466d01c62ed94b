using System.Numerics;
using System.Runtime.InteropServices;

namespace SiteProgress.Core.Deviations;

/// <summary>Mean and spread of the deviations along one axis, metres.</summary>
/// <param name="MeanMetres">Arithmetic mean, metres.</param>
/// <param name="StandardDeviationMetres">Standard deviation about the mean with n - 1, metres; null for a single value.</param>
/// <param name="RmseMetres">Root mean square of the deviations about the design (zero), metres.</param>
public sealed record AxisFigures(double MeanMetres, double? StandardDeviationMetres, double RmseMetres)
{
    /// <summary>Figures of at least one value.</summary>
    /// <param name="valuesMetres">Values, metres.</param>
    /// <returns>The figures.</returns>
    /// <exception cref="ArgumentException">There is no value.</exception>
    /// <remarks>
    /// Two passes about the first value, with the correction of the second pass for what rounding left in the mean, so that
    /// values of ten million with millimetres behind them keep their spread. Checked against the certified values of the NIST
    /// Statistical Reference Datasets (univariate).
    /// </remarks>
    public static AxisFigures Of(ReadOnlySpan<double> valuesMetres)
    {
        if (valuesMetres.IsEmpty) throw new ArgumentException("Figures need at least one value.", nameof(valuesMetres));
        int n = valuesMetres.Length;
        double first = valuesMetres[0];
        (double sum, double squaresAboutZero) = About(valuesMetres, first, 0);
        double meanAboutFirst = sum / n;
        // The mean's own rounding stays in the second pass as a small rest, which is taken out of both figures.
        (double rest, double squares) = About(valuesMetres, first + meanAboutFirst, first + meanAboutFirst);
        return new AxisFigures(
            first + meanAboutFirst + (rest / n),
            n > 1 ? Math.Sqrt(Math.Max(0, squares - (rest * rest / n)) / (n - 1)) : null,
            Math.Sqrt(squaresAboutZero / n));
    }

    /// <summary>Sum of the values about one point, and of their squares about another; several values at a time.</summary>
    private static (double Sum, double Squares) About(ReadOnlySpan<double> values, double ofSum, double ofSquares)
    {
        ReadOnlySpan<Vector<double>> together = MemoryMarshal.Cast<double, Vector<double>>(values);
        (Vector<double> aboutSum, Vector<double> aboutSquares) = (new Vector<double>(ofSum), new Vector<double>(ofSquares));
        (Vector<double> sums, Vector<double> squares) = (Vector<double>.Zero, Vector<double>.Zero);
        foreach (Vector<double> some in together)
        {
            sums += some - aboutSum;
            Vector<double> apart = some - aboutSquares;
            squares += apart * apart;
        }

        (double sum, double square) = (Vector.Sum(sums), Vector.Sum(squares));
        foreach (double value in values[(together.Length * Vector<double>.Count)..])
        {
            sum += value - ofSum;
            square += (value - ofSquares) * (value - ofSquares);
        }

        return (sum, square);
    }
}
