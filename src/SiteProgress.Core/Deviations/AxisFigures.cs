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
        double sum = 0;
        double squaresAboutZero = 0;
        foreach (double value in valuesMetres)
        {
            sum += value - first;
            squaresAboutZero += value * value;
        }

        double meanAboutFirst = sum / n;
        double rest = 0;
        double squares = 0;
        foreach (double value in valuesMetres)
        {
            double about = value - first - meanAboutFirst;
            rest += about;
            squares += about * about;
        }

        return new AxisFigures(
            first + meanAboutFirst + (rest / n),
            n > 1 ? Math.Sqrt(Math.Max(0, squares - (rest * rest / n)) / (n - 1)) : null,
            Math.Sqrt(squaresAboutZero / n));
    }
}
