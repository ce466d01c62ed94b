namespace SiteProgress.Core.Coordinates;

/// <summary>Round numbers for scales and exaggerations of drawings: 1, 2 or 5 times a power of ten.</summary>
public static class RoundFactor
{
    /// <summary>The largest of the series that is not above a value. Common practice, no source.</summary>
    /// <param name="value">More than zero and finite, in any unit; the answer is in the same.</param>
    /// <exception cref="ArgumentOutOfRangeException">The value is not more than zero, or not finite.</exception>
    public static double NotAbove(double value)
    {
        if (!(value > 0) || !double.IsFinite(value)) throw new ArgumentOutOfRangeException(nameof(value), value, "A round number is asked for of a number above zero.");
        double power = Math.Pow(10, Math.Floor(Math.Log10(value)));
        return (value / power) switch { >= 5 => 5 * power, >= 2 => 2 * power, _ => power };
    }
}
