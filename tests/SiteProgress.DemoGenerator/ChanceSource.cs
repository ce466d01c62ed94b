namespace SiteProgress.DemoGenerator;

/// <summary>
/// A stream of chance with an algorithm of its own (xoshiro256**, Blackman and Vigna 2018, seeded by splitmix64), so that the
/// same seed gives the same files on every machine and every .NET. Each purpose takes a stream by name: a change to the
/// weather does not move the piles.
/// </summary>
public sealed class ChanceSource
{
    private ulong _s0, _s1, _s2, _s3;

    private ChanceSource(ulong state)
    {
        _s0 = SplitMix(ref state);
        _s1 = SplitMix(ref state);
        _s2 = SplitMix(ref state);
        _s3 = SplitMix(ref state);
    }

    /// <summary>The stream of one purpose under one seed.</summary>
    public static ChanceSource For(int seed, string purpose)
    {
        // FNV-1a over the purpose's characters, so that the names alone tell the streams apart.
        var hash = 14695981039346656037UL;
        foreach (var character in purpose) hash = (hash ^ character) * 1099511628211UL;
        return new ChanceSource(hash ^ ((ulong)(uint)seed * 0x9E3779B97F4A7C15UL));
    }

    /// <summary>A number in [0, 1) with 53 random bits.</summary>
    public double Uniform() => (Next() >> 11) * (1.0 / (1UL << 53));

    /// <summary>A number in [low, high).</summary>
    public double Between(double low, double high) => low + ((high - low) * Uniform());

    /// <summary>A whole number from low to high, both included.</summary>
    public int Whole(int low, int high) => low + (int)(Uniform() * (high - low + 1));

    /// <summary>True with the given probability.</summary>
    public bool Chance(double probability) => Uniform() < probability;

    /// <summary>A normal deviate (Marsaglia's polar method; the second of each pair is thrown away, for simplicity).</summary>
    public double Normal(double mean, double standardDeviation)
    {
        while (true)
        {
            var u = (2 * Uniform()) - 1;
            var v = (2 * Uniform()) - 1;
            var s = (u * u) + (v * v);
            if (s is > 0 and < 1) return mean + (standardDeviation * u * Math.Sqrt(-2 * Math.Log(s) / s));
        }
    }

    /// <summary>An exponential deviate with the given mean.</summary>
    public double Exponential(double mean) => -mean * Math.Log(1 - Uniform());

    private ulong Next()
    {
        var result = ulong.RotateLeft(_s1 * 5, 7) * 9;
        var t = _s1 << 17;
        _s2 ^= _s0;
        _s3 ^= _s1;
        _s1 ^= _s2;
        _s0 ^= _s3;
        _s2 ^= t;
        _s3 = ulong.RotateLeft(_s3, 45);
        return result;
    }

    private static ulong SplitMix(ref ulong state)
    {
        var z = state += 0x9E3779B97F4A7C15UL;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
        return z ^ (z >> 31);
    }
}
