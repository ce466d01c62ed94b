using System.Buffers.Text;
using System.Runtime.CompilerServices;

namespace SiteProgress.Exchange.CoordinateLists;

/// <summary>Decimal numbers in UTF-8, there and back, for lists of millions of lines. Decimal point, no grouping, whatever the culture.</summary>
internal static class DecimalBytes
{
    /// <summary>Integers up to this are exact in a double.</summary>
    private const ulong LargestExact = 1UL << 53;

    private static readonly double[] Powers = [1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18];

    /// <summary>Reads a whole cell. Plain decimals of up to 15 digits are one exact division; everything else takes the library's way.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static bool TryRead(ReadOnlySpan<byte> cell, out double value)
    {
        cell = cell.Trim((byte)' ');
        int at = 0, decimals = -1, digits = 0;
        var negative = cell.Length > 0 && cell[0] == '-';
        if (negative || cell.Length > 0 && cell[0] == '+') at++;
        ulong mantissa = 0;
        for (; at < cell.Length; at++)
        {
            var digit = (uint)(cell[at] - '0');
            if (digit <= 9)
            {
                if (++digits > 18) return TryReadSlowly(cell, out value);
                mantissa = mantissa * 10 + digit;
                if (decimals >= 0) decimals++;
            }
            else if (cell[at] == '.' && decimals < 0) decimals = 0;
            else return TryReadSlowly(cell, out value);
        }

        if (digits == 0 || mantissa > LargestExact) return TryReadSlowly(cell, out value);
        value = mantissa / Powers[Math.Max(0, decimals)];
        if (negative) value = -value;
        return true;
    }

    /// <summary>Writes a number with fixed decimals, rounded to the nearest; returns how many bytes.</summary>
    /// <param name="value">A finite number below 10^18 over the power of its decimals.</param>
    /// <param name="decimals">0 to 12.</param>
    /// <param name="target">Room for at least 32 bytes.</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static int Write(double value, int decimals, Span<byte> target)
    {
        var scaled = Math.Round(Math.Abs(value) * Powers[decimals]);
        if (!(scaled < 1e18)) return Utf8Formatter.TryFormat(value, target, out var written, new('F', (byte)decimals)) ? written : 0;
        var whole = (ulong)scaled;
        var at = 0;
        if (value < 0 && whole != 0) target[at++] = (byte)'-';
        var power = (ulong)Powers[decimals];
        ulong integer = whole / power, fraction = whole - integer * power;
        at += WriteWhole(integer, Digits(integer), target[at..]);
        if (decimals == 0) return at;
        target[at++] = (byte)'.';
        return at + WriteWhole(fraction, decimals, target[at..]);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static int WriteWhole(ulong value, int digits, Span<byte> target)
    {
        var k = digits;
        for (; k >= 2; k -= 2)
        {
            var next = value / 100;
            var pair = (int)(value - next * 100);
            var tens = pair / 10;
            target[k - 2] = (byte)('0' + tens);
            target[k - 1] = (byte)('0' + (pair - tens * 10));
            value = next;
        }

        if (k == 1) target[0] = (byte)('0' + value % 10);
        return digits;
    }

    private static bool TryReadSlowly(ReadOnlySpan<byte> cell, out double value) =>
        Utf8Parser.TryParse(cell, out value, out var used) && used == cell.Length && double.IsFinite(value);

    private static int Digits(ulong value)
    {
        var digits = 1;
        while (value >= 10)
        {
            value /= 10;
            digits++;
        }

        return digits;
    }
}
