using System.Buffers.Binary;
using System.Security.Cryptography;
using NodaTime;

namespace SiteProgress.Core.Logs;

/// <summary>
/// A log as bytes and back, column by column. The bytes are the canonical form over which a log's SHA-256 is taken, so the
/// chain of records, which holds that hash, covers every sample. Form, little end first:
/// <code>
/// "siteprogress log 1\n" (ASCII)
/// tip measure (1 byte), sand measure (1 byte), first sample as nanoseconds since 1970 (8 bytes), samples (4 bytes)
/// then each column, times first (channel 0), by channel number:
///   channel (1 byte), decimals (1 byte)
///   decimals 0 to 6: each value times 10^decimals as a whole number, less the one before, zigzag, plus one, as a varint
///                    of 7 bits a byte; a missing value is the varint 0
///   decimals 255: each value as an IEEE 754 double of 8 bytes
/// </code>
/// </summary>
public static class LogBytes
{
    private const int MostDecimals = 6;
    private const byte Raw = 255;
    private const double LargestWhole = 1e12;

    private static ReadOnlySpan<byte> Head => "siteprogress log 1\n"u8;

    private static readonly double[] PowersOfTen = [1, 10, 100, 1e3, 1e4, 1e5, 1e6];

    /// <summary>The canonical bytes of a log.</summary>
    public static byte[] Write(PileLog log)
    {
        ArgumentNullException.ThrowIfNull(log);
        using MemoryStream bytes = new(log.Count * 8);
        bytes.Write(Head);
        Span<byte> fixedPart = stackalloc byte[14];
        (fixedPart[0], fixedPart[1]) = ((byte)log.TipMeasure, (byte)log.SandMeasure);
        BinaryPrimitives.WriteInt64LittleEndian(fixedPart[2..], (log.FirstSample - NodaConstants.UnixEpoch).ToInt64Nanoseconds());
        BinaryPrimitives.WriteInt32LittleEndian(fixedPart[10..], log.Count);
        bytes.Write(fixedPart);
        WriteColumn(bytes, 0, log.Seconds.Span);
        foreach (LogChannel channel in log.Channels) WriteColumn(bytes, (byte)channel, log.Of(channel));
        return bytes.ToArray();
    }

    /// <summary>SHA-256 of canonical bytes, lower-case hexadecimal.</summary>
    public static string Hash(ReadOnlySpan<byte> canonicalBytes) => Convert.ToHexStringLower(SHA256.HashData(canonicalBytes));

    /// <summary>The log from its canonical bytes.</summary>
    /// <exception cref="InvalidDataException">The bytes are not those of a log: the store was altered or is newer.</exception>
    public static PileLog Read(ReadOnlySpan<byte> bytes)
    {
        int at = Head.Length + 14;
        if (bytes.Length < at || !bytes[..Head.Length].SequenceEqual(Head)) throw Broken();
        ReadOnlySpan<byte> fixedPart = bytes[Head.Length..at];
        int count = BinaryPrimitives.ReadInt32LittleEndian(fixedPart[10..]);
        Instant first = NodaConstants.UnixEpoch + Duration.FromNanoseconds(BinaryPrimitives.ReadInt64LittleEndian(fixedPart[2..]));
        ReadOnlyMemory<double> seconds = default;
        Dictionary<LogChannel, ReadOnlyMemory<double>> columns = [];
        while (at < bytes.Length)
        {
            byte channel = bytes[at];
            double[] values = ReadColumn(bytes, ref at, count);
            if (channel == 0) seconds = values;
            else columns[(LogChannel)channel] = values;
        }

        return new PileLog(first, (TipMeasure)fixedPart[0], (SandMeasure)fixedPart[1], seconds, columns);
    }

    private static void WriteColumn(MemoryStream bytes, byte channel, ReadOnlySpan<double> values)
    {
        int decimals = Decimals(values);
        bytes.WriteByte(channel);
        bytes.WriteByte(decimals < 0 ? Raw : (byte)decimals);
        long before = 0;
        Span<byte> eight = stackalloc byte[8];
        foreach (double value in values)
        {
            if (decimals < 0)
            {
                BinaryPrimitives.WriteDoubleLittleEndian(eight, value);
                bytes.Write(eight);
            }
            else if (double.IsNaN(value))
            {
                bytes.WriteByte(0);
            }
            else
            {
                long whole = (long)Math.Round(value * PowersOfTen[decimals]);
                long step = whole - before;
                WriteVarint(bytes, (ulong)((step << 1) ^ (step >> 63)) + 1);
                before = whole;
            }
        }
    }

    private static double[] ReadColumn(ReadOnlySpan<byte> bytes, ref int at, int count)
    {
        byte decimals = bytes[at + 1];
        at += 2;
        if (count < 0 || count > bytes.Length || (decimals > MostDecimals && decimals != Raw)) throw Broken();
        double[] values = new double[count];
        long before = 0;
        for (int index = 0; index < count; index++)
        {
            if (decimals == Raw)
            {
                if (at + 8 > bytes.Length) throw Broken();
                values[index] = BinaryPrimitives.ReadDoubleLittleEndian(bytes[at..]);
                at += 8;
                continue;
            }

            ulong read = ReadVarint(bytes, ref at);
            if (read == 0)
            {
                values[index] = double.NaN;
                continue;
            }

            read--;
            before += (long)(read >> 1) ^ -(long)(read & 1);
            values[index] = before / PowersOfTen[decimals];
        }

        return values;
    }

    /// <summary>The fewest decimals by which every value is written exactly; -1 where there are none.</summary>
    private static int Decimals(ReadOnlySpan<double> values)
    {
        int decimals = 0;
        foreach (double value in values)
        {
            if (double.IsNaN(value)) continue;
            while (decimals <= MostDecimals && !IsExact(value, PowersOfTen[decimals])) decimals++;
            if (decimals > MostDecimals) return -1;
        }

        // One more decimal later in the column must still write the earlier values: a power of ten more always does.
        foreach (double value in values)
        {
            if (!double.IsNaN(value) && !IsExact(value, PowersOfTen[decimals])) return -1;
        }

        return decimals;
    }

    private static bool IsExact(double value, double power)
    {
        double whole = Math.Round(value * power);
        return Math.Abs(whole) < LargestWhole && BitConverter.DoubleToInt64Bits(whole / power) == BitConverter.DoubleToInt64Bits(value);
    }

    private static void WriteVarint(MemoryStream bytes, ulong value)
    {
        for (; value >= 0x80; value >>= 7) bytes.WriteByte((byte)(value | 0x80));
        bytes.WriteByte((byte)value);
    }

    private static ulong ReadVarint(ReadOnlySpan<byte> bytes, ref int at)
    {
        ulong value = 0;
        for (int shift = 0; shift < 64; shift += 7)
        {
            if (at >= bytes.Length) throw Broken();
            byte next = bytes[at++];
            value |= (ulong)(next & 0x7F) << shift;
            if (next < 0x80) return value;
        }

        throw Broken();
    }

    private static InvalidDataException Broken() => new("These are not the canonical bytes of a log.");
}
