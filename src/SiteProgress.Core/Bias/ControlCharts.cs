namespace SiteProgress.Core.Bias;

/// <summary>Control limits of a chart: values outside them are looked at.</summary>
/// <param name="Lower">Lower limit.</param>
/// <param name="Centre">Centre line.</param>
/// <param name="Upper">Upper limit.</param>
public readonly record struct ControlLimits(double Lower, double Centre, double Upper);

/// <summary>The charts of statistical process control. NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.</summary>
public static class ControlCharts
{
    /// <summary>Mean range of two values from a normal distribution with standard deviation 1: 2/sqrt(pi) = 1.128379.</summary>
    public static double RangeOfTwo { get; } = 2 / Math.Sqrt(Math.PI);

    /// <summary>Limits of single values: mean plus and minus three times the mean moving range over <see cref="RangeOfTwo"/> (e-Handbook 6.3.2.2).</summary>
    /// <param name="values">At least two values in order of time.</param>
    public static ControlLimits Individuals(ReadOnlySpan<double> values)
    {
        double sum = values[0];
        double ranges = 0;
        for (int index = 1; index < values.Length; index++)
        {
            sum += values[index];
            ranges += Math.Abs(values[index] - values[index - 1]);
        }

        double mean = sum / values.Length;
        double half = 3 * ranges / (values.Length - 1) / RangeOfTwo;
        return new ControlLimits(mean - half, mean, mean + half);
    }

    /// <summary>Exponentially weighted means: each takes its share of the newest value (e-Handbook 6.3.2.4).</summary>
    /// <param name="values">Values in order of time.</param>
    /// <param name="start">Value before the first.</param>
    /// <param name="weight">Share of the newest value, 0 to 1.</param>
    public static double[] Ewma(ReadOnlySpan<double> values, double start, double weight)
    {
        double[] means = new double[values.Length];
        double mean = start;
        for (int index = 0; index < values.Length; index++) means[index] = mean = (weight * values[index]) + ((1 - weight) * mean);
        return means;
    }

    /// <summary>Limits of exponentially weighted means.</summary>
    /// <param name="centre">Centre line.</param>
    /// <param name="deviation">Standard deviation of one value.</param>
    /// <param name="weight">Share of the newest value, 0 to 1.</param>
    /// <param name="width">Half width in standard deviations of the weighted mean, usually 3.</param>
    /// <param name="place">Number of the value from 1; null for the limits that are reached after many values.</param>
    public static ControlLimits EwmaLimits(double centre, double deviation, double weight, double width, int? place = null)
    {
        double reached = place is { } values ? 1 - Math.Pow(1 - weight, 2 * values) : 1;
        double half = width * deviation * Math.Sqrt(weight / (2 - weight) * reached);
        return new ControlLimits(centre - half, centre, centre + half);
    }

    /// <summary>Standard deviation of values with few wild ones among them, about their median: 1.4826 times the median distance from it.</summary>
    /// <param name="values">Values, any order; the answer for none is 0.</param>
    public static double Spread(IReadOnlyCollection<double> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        return values.Count == 0 ? 0 : RobustScale.Of(values.ToArray()).Spread;
    }

    /// <summary>
    /// How far each value goes with the one before it, -1 to 1: the sum of products of neighbours over the sum of squares, both about the
    /// mean (e-Handbook 1.3.5.12). Control limits suppose that it is near 0.
    /// </summary>
    /// <param name="values">Values in order of time.</param>
    /// <returns>The lag-1 autocorrelation coefficient; null for fewer than two values, or where all are alike.</returns>
    public static double? Autocorrelation(ReadOnlySpan<double> values)
    {
        if (values.Length < 2) return null;
        double mean = Deviations.AxisFigures.Of(values).MeanMetres;
        (double products, double squares) = (0, (values[0] - mean) * (values[0] - mean));
        for (int index = 1; index < values.Length; index++)
        {
            squares += (values[index] - mean) * (values[index] - mean);
            products += (values[index] - mean) * (values[index - 1] - mean);
        }

        return squares > 0 && double.IsFinite(squares) ? products / squares : null;
    }

    /// <summary>Cumulative sums above and below a target (e-Handbook 6.3.2.3); one above the decision value is a signal.</summary>
    /// <param name="values">Values in order of time.</param>
    /// <param name="target">Target.</param>
    /// <param name="allowance">What each value may differ without being summed, in the unit of the values.</param>
    public static (double[] High, double[] Low) Cusum(ReadOnlySpan<double> values, double target, double allowance)
    {
        (double[] high, double[] low) = (new double[values.Length], new double[values.Length]);
        (double up, double down) = (0, 0);
        for (int index = 0; index < values.Length; index++)
        {
            high[index] = up = Math.Max(0, up + values[index] - target - allowance);
            low[index] = down = Math.Max(0, down + target - allowance - values[index]);
        }

        return (high, low);
    }
}
