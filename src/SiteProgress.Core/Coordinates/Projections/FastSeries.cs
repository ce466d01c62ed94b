using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace SiteProgress.Core.Coordinates.Projections;

/// <summary>Elementary functions of four numbers at once, on the short intervals that projections need, to the rounding of a double.</summary>
/// <remarks>
/// Polynomials in the square of the argument, interpolated at Chebyshev nodes with 60 digits by
/// tests/reference-data/coordinates/fast-series.py, which prints the error of each: below 2e-17 of the leading term.
/// </remarks>
internal static class FastSeries
{
    /// <summary>Largest argument of the functions named Small.</summary>
    public const double Small = 0.36;

    /// <summary>Sine and cosine for arguments up to pi/2, by way of the half angle.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (Vector256<double> Sine, Vector256<double> Cosine) SineCosine(Vector256<double> x)
    {
        var half = x * 0.5;
        var u = half * half;
        var sine = half * Horner(u, 1.0, -0.16666666666666616, 0.008333333333320363, -0.000198412698286503, 2.755731337640013e-06, -2.5050716974102745e-08, 1.5894736651849094e-10);
        var versine = u * Horner(u, 0.5, -0.04166666666666664, 0.0013888888888880775, -2.480158729369346e-05, 2.7557315566341895e-07, -2.0875886738047052e-09, 1.1367998654022494e-11);
        var doubled = sine + sine;
        return (Vector256.FusedMultiplyAdd(-doubled, versine, doubled), Vector256.FusedMultiplyAdd(-doubled, sine, Vector256<double>.One));
    }

    /// <summary>Sine and one minus cosine for arguments up to 0.36.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (Vector256<double> Sine, Vector256<double> Versine) SmallSineVersine(Vector256<double> x)
    {
        var u = x * x;
        return (
            x * Horner(u, 1.0, -0.16666666666666646, 0.008333333333314786, -0.0001984126978019934, 2.7557228329319746e-06, -2.4989743020190465e-08),
            u * Horner(u, 0.5, -0.04166666666666665, 0.0013888888888875636, -2.4801587257956208e-05, 2.7557254286794654e-07, -2.083220385583474e-09));
    }

    /// <summary>Hyperbolic sine, and hyperbolic cosine minus one, for arguments up to 0.37.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (Vector256<double> Sine, Vector256<double> CosineMinusOne) SmallHyperbolic(Vector256<double> x)
    {
        var u = x * x;
        return (
            x * Horner(u, 1.0, 0.16666666666666693, 0.008333333333310154, 0.00019841269913505407, 2.7557217481360604e-06, 2.5118143557416653e-08),
            u * Horner(u, 0.5, 0.041666666666666685, 0.0013888888888872336, 2.480158735317251e-05, 2.7557246565375905e-07, 2.092391776011164e-09));
    }

    /// <summary>Inverse hyperbolic tangent for arguments up to 0.35.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> SmallInverseHyperbolicTangent(Vector256<double> x)
    {
        var u = x * x;
        var high = Horner(u, 0.09090835284046335, 0.07694035189737385, 0.06640878109075611, 0.06126789558348427, 0.038572255128713685, 0.09072360951507472);
        var u2 = u * u;
        var low = Horner(u, 1.0, 0.33333333333332604, 0.2000000000023799, 0.142857142555406, 0.11111113068121724);
        return x * Vector256.FusedMultiplyAdd(high, u2 * u2 * u, low);
    }

    /// <summary>Inverse tangent for arguments up to 0.375.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> SmallInverseTangent(Vector256<double> x)
    {
        var u = x * x;
        var high = Horner(u, -0.0909086190705059, 0.07691315013713444, -0.06653144140990574, 0.05762329903905932, -0.045828570681247925, 0.024304920761860565);
        var u2 = u * u;
        var low = Horner(u, 1.0, -0.3333333333333256, 0.19999999999780144, -0.14285714261201707, 0.11111109705620349);
        return x * Vector256.FusedMultiplyAdd(high, u2 * u2 * u, low);
    }

    /// <summary>Inverse tangent for arguments up to 0.04.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> TinyInverseTangent(Vector256<double> x) =>
        x * Horner(x * x, 1.0, -0.33333333333327536, 0.19999999971002425, -0.1428566352400904, 0.11074827325669724);

    /// <summary>Sine and cosine of an angle near zero (up to 0.01) by their first terms.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (Vector256<double> Sine, Vector256<double> Cosine) TinySineCosine(Vector256<double> x)
    {
        var u = x * x;
        return (x * Horner(u, 1.0, -1 / 6.0, 1 / 120.0, -1 / 5040.0), Horner(u, 1.0, -0.5, 1 / 24.0, -1 / 720.0));
    }

    /// <summary>Hyperbolic sine and cosine of a number near zero (up to 0.01) by their first terms.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (Vector256<double> Sine, Vector256<double> Cosine) TinyHyperbolic(Vector256<double> x)
    {
        var u = x * x;
        return (x * Horner(u, 1.0, 1 / 6.0, 1 / 120.0, 1 / 5040.0), Horner(u, 1.0, 0.5, 1 / 24.0, 1 / 720.0));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Horner(Vector256<double> u, double c0, double c1, double c2, double c3) =>
        Step(u, c0, Step(u, c1, Step(u, c2, Vector256.Create(c3))));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Horner(Vector256<double> u, double c0, double c1, double c2, double c3, double c4) =>
        Step(u, c0, Step(u, c1, Step(u, c2, Step(u, c3, Vector256.Create(c4)))));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Horner(Vector256<double> u, double c0, double c1, double c2, double c3, double c4, double c5) =>
        Step(u, c0, Horner(u, c1, c2, c3, c4, c5));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Horner(Vector256<double> u, double c0, double c1, double c2, double c3, double c4, double c5, double c6) =>
        Step(u, c0, Step(u, c1, Horner(u, c2, c3, c4, c5, c6)));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Step(Vector256<double> u, double coefficient, Vector256<double> rest) =>
        Vector256.FusedMultiplyAdd(rest, u, Vector256.Create(coefficient));
}
