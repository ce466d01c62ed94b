namespace SiteProgress.Core.Forecast;

/// <summary>
/// A stream of chance that is the same on every machine for the same seed: xoshiro256** (Blackman and Vigna, 2018), its state
/// filled by splitmix64 (Steele, Lea and Flood, 2014).
/// </summary>
internal sealed class ChanceStream
{
    private ulong _s0, _s1, _s2, _s3;

    public ChanceStream(ulong seed)
    {
        _s0 = Split(ref seed);
        _s1 = Split(ref seed);
        _s2 = Split(ref seed);
        _s3 = Split(ref seed);
    }

    /// <summary>64 random bits.</summary>
    public ulong Next()
    {
        ulong result = ulong.RotateLeft(_s1 * 5, 7) * 9;
        ulong shifted = _s1 << 17;
        _s2 ^= _s0;
        _s3 ^= _s1;
        _s1 ^= _s2;
        _s0 ^= _s3;
        _s2 ^= shifted;
        _s3 = ulong.RotateLeft(_s3, 45);
        return result;
    }

    /// <summary>A number from 0 to below 1.</summary>
    public double Uniform() => (Next() >> 11) * (1.0 / (1UL << 53));

    /// <summary>A whole number from 0 to below the count. The bias of the multiplication is below count / 2^32.</summary>
    public int Below(int count) => (int)(((Next() >> 32) * (ulong)count) >> 32);

    /// <summary>A standard normal deviate (Marsaglia's polar method).</summary>
    public double Normal()
    {
        while (true)
        {
            double u = (2 * Uniform()) - 1;
            double v = (2 * Uniform()) - 1;
            double s = (u * u) + (v * v);
            if (s is > 0 and < 1) return u * Math.Sqrt(-2 * Math.Log(s) / s);
        }
    }

    /// <summary>A gamma deviate of scale 1 (Marsaglia and Tsang, 2000).</summary>
    public double Gamma(double shape)
    {
        if (shape < 1) return Gamma(shape + 1) * Math.Pow(Uniform(), 1 / shape);
        double d = shape - (1.0 / 3);
        double c = 1 / Math.Sqrt(9 * d);
        while (true)
        {
            double x = Normal();
            double v = 1 + (c * x);
            if (v <= 0) continue;
            v *= v * v;
            if (Math.Log(1 - Uniform()) < (0.5 * x * x) + d - (d * v) + (d * Math.Log(v))) return d * v;
        }
    }

    /// <summary>A beta deviate.</summary>
    public double Beta(double a, double b)
    {
        double x = Gamma(a);
        return x / (x + Gamma(b));
    }

    /// <summary>How many of so many trials succeed; by the normal distribution where both outcomes are many.</summary>
    public int Successes(int trials, double probability)
    {
        double mean = trials * probability;
        if (mean > 30 && trials - mean > 30)
            return (int)Math.Clamp(Math.Round(mean + (Normal() * Math.Sqrt(mean * (1 - probability)))), 0, trials);
        if (probability <= 0) return 0;
        // Waiting times between successes, so that few successes cost few draws.
        int count = 0;
        double step = Math.Log(1 - Math.Min(probability, 1 - 1e-12));
        for (double at = Math.Log(1 - Uniform()) / step; at < trials; at += 1 + Math.Floor(Math.Log(1 - Uniform()) / step)) count++;
        return Math.Min(count, trials);
    }

    private static ulong Split(ref ulong state)
    {
        ulong z = state += 0x9E3779B97F4A7C15UL;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
        return z ^ (z >> 31);
    }
}
