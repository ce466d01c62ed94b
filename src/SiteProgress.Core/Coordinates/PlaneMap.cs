using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SiteProgress.Core.Coordinates;

/// <summary>
/// The plane map of an adjustment over many points: from = (first, second) about one origin, to = (first, second) about another.
/// </summary>
internal readonly record struct PlaneMap(
    double FirstPerFirst, double FirstPerSecond, double SecondPerFirst, double SecondPerSecond,
    double FromFirst, double FromSecond, double ToFirst, double ToSecond)
{
    public static PlaneMap Forward(Adjustment a) => new(
        a.EastPerX, a.EastPerY, a.NorthPerX, a.NorthPerY,
        a.SiteOrigin.XMetres, a.SiteOrigin.YMetres, a.ProjectedOrigin.EastingMetres, a.ProjectedOrigin.NorthingMetres);

    public static PlaneMap Inverse(Adjustment a)
    {
        var determinant = a.EastPerX * a.NorthPerY - a.EastPerY * a.NorthPerX;
        return new(
            a.NorthPerY / determinant, -a.EastPerY / determinant, -a.NorthPerX / determinant, a.EastPerX / determinant,
            a.ProjectedOrigin.EastingMetres, a.ProjectedOrigin.NorthingMetres, a.SiteOrigin.XMetres, a.SiteOrigin.YMetres);
    }

    /// <summary>Maps pairs of doubles, two pairs at a time where the machine can.</summary>
    public void Apply<TFrom, TTo>(ReadOnlySpan<TFrom> from, Span<TTo> to)
        where TFrom : struct
        where TTo : struct
    {
        var source = MemoryMarshal.Cast<TFrom, double>(from);
        var target = MemoryMarshal.Cast<TTo, double>(to);
        var i = 0;
        if (Avx.IsSupported)
        {
            var straight = Vector256.Create(FirstPerFirst, SecondPerSecond, FirstPerFirst, SecondPerSecond);
            var crossed = Vector256.Create(FirstPerSecond, SecondPerFirst, FirstPerSecond, SecondPerFirst);
            var origin = Vector256.Create(FromFirst, FromSecond, FromFirst, FromSecond);
            var shift = Vector256.Create(ToFirst, ToSecond, ToFirst, ToSecond);
            ref var start = ref MemoryMarshal.GetReference(source);
            ref var end = ref MemoryMarshal.GetReference(target);
            for (; i <= source.Length - 4; i += 4)
            {
                var v = Vector256.LoadUnsafe(ref Unsafe.Add(ref start, i)) - origin;
                (straight * v + crossed * Avx.Permute(v, 0b0101) + shift).StoreUnsafe(ref Unsafe.Add(ref end, i));
            }
        }

        for (; i < source.Length; i += 2) (target[i], target[i + 1]) = Apply(source[i], source[i + 1]);
    }

    /// <summary>Maps one pair, by the same roundings as a batch.</summary>
    public (double First, double Second) Apply(double first, double second)
    {
        first -= FromFirst;
        second -= FromSecond;
        return (FirstPerFirst * first + FirstPerSecond * second + ToFirst, SecondPerSecond * second + SecondPerFirst * first + ToSecond);
    }
}
