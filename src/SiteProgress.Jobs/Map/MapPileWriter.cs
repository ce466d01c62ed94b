using System.Buffers.Binary;
using System.Runtime.InteropServices;
using System.Text.Json;
using SiteProgress.Core.Records;

namespace SiteProgress.Jobs.Map;

/// <summary>
/// Writes pile data for the map: a head of 16 bytes, a preamble in JSON filled up to whole groups of 8 bytes, then the columns
/// from the widest to the narrowest, everything little-endian. The map's own description stands beside its script.
/// </summary>
internal static class MapPileWriter
{
    private const int HeadBytes = 16;
    private const int PieceBytes = 1 << 16;

    private delegate void Put<T>(Span<byte> at, T value);

    /// <summary>Writes the whole answer.</summary>
    /// <param name="preamble">What the columns count and refer to.</param>
    /// <param name="piles">The columns.</param>
    /// <param name="output">Where to; it is neither flushed nor closed.</param>
    /// <param name="cancellation">Stops the work.</param>
    public static async Task WriteAsync(MapPreamble preamble, MapPileColumns piles, Stream output, CancellationToken cancellation)
    {
        await output.WriteAsync(Head(preamble, piles), cancellation);
        await ColumnAsync(piles.Latitude, sizeof(double), BinaryPrimitives.WriteDoubleLittleEndian, output, cancellation);
        await ColumnAsync(piles.Longitude, sizeof(double), BinaryPrimitives.WriteDoubleLittleEndian, output, cancellation);
        await ColumnAsync(piles.DeviationEast, sizeof(float), BinaryPrimitives.WriteSingleLittleEndian, output, cancellation);
        await ColumnAsync(piles.DeviationNorth, sizeof(float), BinaryPrimitives.WriteSingleLittleEndian, output, cancellation);
        await ColumnAsync(piles.DesignDiameter, sizeof(float), BinaryPrimitives.WriteSingleLittleEndian, output, cancellation);
        await ColumnAsync(piles.BuiltDiameter, sizeof(float), BinaryPrimitives.WriteSingleLittleEndian, output, cancellation);
        await ColumnAsync(piles.NumberOffset, sizeof(uint), BinaryPrimitives.WriteUInt32LittleEndian, output, cancellation);
        await ColumnAsync(piles.Day, sizeof(ushort), BinaryPrimitives.WriteUInt16LittleEndian, output, cancellation);
        await ColumnAsync(piles.State, sizeof(byte), PutByte, output, cancellation);
        await ColumnAsync(piles.Zone, sizeof(byte), PutByte, output, cancellation);
        await ColumnAsync(piles.Barge, sizeof(byte), PutByte, output, cancellation);
        await output.WriteAsync(piles.Numbers, cancellation);
    }

    private static byte[] Head(MapPreamble preamble, MapPileColumns piles)
    {
        byte[] json = JsonSerializer.SerializeToUtf8Bytes(preamble, RecordJson.Options);
        int padded = (json.Length + 7) / 8 * 8;
        byte[] head = new byte[HeadBytes + padded];
        "SPM1"u8.CopyTo(head);
        BinaryPrimitives.WriteUInt32LittleEndian(head.AsSpan(4), (uint)piles.Count);
        BinaryPrimitives.WriteUInt32LittleEndian(head.AsSpan(8), (uint)padded);
        BinaryPrimitives.WriteUInt32LittleEndian(head.AsSpan(12), (uint)piles.Numbers.Length);
        json.CopyTo(head, HeadBytes);
        head.AsSpan(HeadBytes + json.Length).Fill((byte)' ');
        return head;
    }

    private static async Task ColumnAsync<T>(List<T> column, int width, Put<T> put, Stream output, CancellationToken cancellation)
    {
        byte[] piece = new byte[PieceBytes];
        int inPiece = PieceBytes / width;
        for (int begin = 0; begin < column.Count; begin += inPiece)
        {
            int filled = Fill(CollectionsMarshal.AsSpan(column).Slice(begin, Math.Min(inPiece, column.Count - begin)), width, put, piece);
            await output.WriteAsync(piece.AsMemory(0, filled), cancellation);
        }
    }

    private static int Fill<T>(ReadOnlySpan<T> values, int width, Put<T> put, Span<byte> piece)
    {
        for (int index = 0; index < values.Length; index++) put(piece[(index * width)..], values[index]);
        return values.Length * width;
    }

    private static void PutByte(Span<byte> at, byte value) => at[0] = value;
}
