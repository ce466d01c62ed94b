using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SiteProgress.Core.Coordinates.Projections;

/// <summary>Takes four coordinate pairs apart into two vectors and puts them together again.</summary>
/// <remarks>
/// Lanes hold the pairs in the order 0, 2, 1, 3, as the processor's own unpacking leaves them. Machines without it get the same order, and
/// as every operation used is exact or correctly rounded (fused ones too), the same digits.
/// </remarks>
internal static class FourPoints
{
    /// <summary>Which pair each lane holds.</summary>
    public static ReadOnlySpan<int> PairOfLane => [0, 2, 1, 3];

    /// <summary>Four pairs from position i on: all first values and all second values.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (Vector256<double> First, Vector256<double> Second) Load<T>(ReadOnlySpan<T> pairs, int i)
        where T : struct
    {
        ref var start = ref Unsafe.As<T, double>(ref MemoryMarshal.GetReference(pairs.Slice(i, 4)));
        var a = Vector256.LoadUnsafe(ref start);
        var b = Vector256.LoadUnsafe(ref start, 4);
        return (UnpackLow(a, b), UnpackHigh(a, b));
    }

    /// <summary>Writes four pairs from position i on.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void Store<T>(Span<T> pairs, int i, Vector256<double> first, Vector256<double> second)
        where T : struct
    {
        ref var start = ref Unsafe.As<T, double>(ref MemoryMarshal.GetReference(pairs.Slice(i, 4)));
        UnpackLow(first, second).StoreUnsafe(ref start);
        UnpackHigh(first, second).StoreUnsafe(ref start, 4);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> UnpackLow(Vector256<double> a, Vector256<double> b) => Avx.IsSupported
        ? Avx.UnpackLow(a, b)
        : Vector256.Create(a.GetElement(0), b.GetElement(0), a.GetElement(2), b.GetElement(2));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> UnpackHigh(Vector256<double> a, Vector256<double> b) => Avx.IsSupported
        ? Avx.UnpackHigh(a, b)
        : Vector256.Create(a.GetElement(1), b.GetElement(1), a.GetElement(3), b.GetElement(3));
}
