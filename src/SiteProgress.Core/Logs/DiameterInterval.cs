namespace SiteProgress.Core.Logs;

/// <summary>
/// Interval of the least diameter by resampling: levels and sand heights at the turning points are moved by their own standard
/// deviations, the pile is built anew each time, and its least metre found. The least of noisy values lies below the least
/// of the true ones; the resampled leasts show by how much, and their spread gives the interval. (Parametric bootstrap;
/// Efron and Tibshirani, An Introduction to the Bootstrap, 1993, chapters 6 and 10; from memory.)
/// </summary>
internal static class DiameterInterval
{
    private const int Rounds = 64;

    /// <summary>Standard normal deviate that 2.5 % exceed, and what the spread from few rounds and skew add (set on generated logs).</summary>
    private const double NormalDeviate = 1.85;

    /// <summary>Share of the shift that resampling shows which is taken off: the samples hold noise already (set on generated logs).</summary>
    private const double BiasShare = 0.5;

    private static readonly double[] Deviates = MakeDeviates();

    /// <summary>Least sand of a metre, corrected, with its interval; metres of casing.</summary>
    public static (double Least, double Low, double High, double From) Of(in BuildingFigures figures, LogConstants constants)
    {
        PileProfile profile = new(figures.Bottoms.Length + 1);
        profile.Build(figures.Bottoms, figures.Left, figures.SandStopped, constants);
        int count = figures.Bottoms.Length;
        (double least, double from) = profile.Least(Lowest(figures.Bottoms), figures.CutOff, 1);
        Span<double> bottoms = count <= 128 ? stackalloc double[count] : new double[count];
        Span<double> left = count <= 128 ? stackalloc double[count + 1] : new double[count + 1];
        int next = 0;
        double sum = 0, squares = 0;
        for (int round = 0; round < Rounds; round++)
        {
            double charged = 0;
            for (int index = 0; index < count; index++)
            {
                bottoms[index] = figures.Bottoms[index] + (figures.BottomSpread[index] * Deviate(ref next));
                charged += figures.ChargeSpread[index] * Deviate(ref next);
                left[index] = figures.Left[index] + charged + (figures.LeftSpread[index] * Deviate(ref next));
            }

            left[count] = figures.Left[count] + charged;
            profile.Build(bottoms, left, figures.SandStopped, constants);
            double sand = profile.Least(Lowest(bottoms), figures.CutOff, 1).Sand;
            sum += sand - least;
            squares += (sand - least) * (sand - least);
        }

        double bias = sum / Rounds;
        double spread = Math.Sqrt(Math.Max(0, (squares / Rounds) - (bias * bias)));
        double middle = least - (BiasShare * bias);
        return (middle, middle - (NormalDeviate * spread), middle + (NormalDeviate * spread), from);
    }

    private static double Lowest(ReadOnlySpan<double> bottoms)
    {
        double lowest = bottoms[0];
        foreach (double bottom in bottoms) lowest = Math.Min(lowest, bottom);
        return lowest;
    }

    private static double Deviate(ref int next)
    {
        double value = Deviates[next];
        next = next + 1 == Deviates.Length ? 0 : next + 1;
        return value;
    }

    /// <summary>Normal deviates, the same on every machine: a fixed xorshift64 (Marsaglia 2003) through the polar method.</summary>
    private static double[] MakeDeviates()
    {
        double[] deviates = new double[4093];
        ulong state = 0x9E3779B97F4A7C15;
        for (int index = 0; index < deviates.Length;)
        {
            double u = (2 * Next(ref state)) - 1, v = (2 * Next(ref state)) - 1;
            double s = (u * u) + (v * v);
            if (s is > 0 and < 1) deviates[index++] = u * Math.Sqrt(-2 * Math.Log(s) / s);
        }

        return deviates;
    }

    private static double Next(ref ulong state)
    {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        return (state >> 11) * (1.0 / (1UL << 53));
    }
}

/// <summary>What the building of a pile rests on: levels in metres, sand in metres of casing.</summary>
internal readonly ref struct BuildingFigures
{
    /// <summary>Level of each bottom from the base on.</summary>
    public required ReadOnlySpan<double> Bottoms { get; init; }

    /// <summary>Standard deviation of each.</summary>
    public required ReadOnlySpan<double> BottomSpread { get; init; }

    /// <summary>Sand left at each bottom and at the end.</summary>
    public required ReadOnlySpan<double> Left { get; init; }

    /// <summary>Standard deviation at each bottom.</summary>
    public required ReadOnlySpan<double> LeftSpread { get; init; }

    /// <summary>Standard deviation of what was charged since the bottom before.</summary>
    public required ReadOnlySpan<double> ChargeSpread { get; init; }

    /// <summary>Tip level at which sand stopped leaving in the pull-out.</summary>
    public required double SandStopped { get; init; }

    /// <summary>Level up to which the pile is judged.</summary>
    public required double CutOff { get; init; }
}
