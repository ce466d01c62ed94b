using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;
using NetTopologySuite.Geometries;

namespace SiteProgress.Storage.Derived;

/// <summary>Digest of the values of a row: the first 16 bytes of the SHA-256 over type, length and bytes of each.</summary>
internal sealed class RowDigest
{
    private byte[] _buffer = new byte[4096];
    private int _used;

    public Guid Of(IEnumerable<object?> values)
    {
        _used = 0;
        foreach (object? value in values) Add(value);
        Span<byte> hash = stackalloc byte[32];
        SHA256.HashData(_buffer.AsSpan(0, _used), hash);
        return new Guid(hash[..16]);
    }

    private void Add(object? value)
    {
        switch (value)
        {
            case null: Tag(0); break;
            case double number: Tag(1); Whole(BitConverter.DoubleToInt64Bits(number)); break;
            case long number: Tag(2); Whole(number); break;
            case int number: Tag(3); Whole(number); break;
            case short number: Tag(4); Whole(number); break;
            case bool flag: Tag(5); Whole(flag ? 1 : 0); break;
            case string text: Tag(6); Text(text); break;
            case DateTime time: Tag(7); Whole(time.Ticks); break;
            case DateOnly day: Tag(8); Whole(day.DayNumber); break;
            case Guid guid: Tag(9); guid.TryWriteBytes(Room(16)); break;
            case Point point: Tag(10); Whole(point.SRID); Add(point.X); Add(point.Y); break;
            case long[] numbers: Tag(11); Whole(numbers.Length); foreach (long number in numbers) Whole(number); break;
            case string[] texts: Tag(12); Whole(texts.Length); foreach (string text in texts) Text(text); break;
            default: throw new ArgumentException($"A derived row holds a {value.GetType().Name}, which has no digest.", nameof(value));
        }
    }

    private void Tag(byte tag) => Room(1)[0] = tag;

    private void Whole(long number) => BinaryPrimitives.WriteInt64LittleEndian(Room(8), number);

    private void Text(string text)
    {
        int length = Encoding.UTF8.GetByteCount(text);
        Whole(length);
        Encoding.UTF8.GetBytes(text, Room(length));
    }

    private Span<byte> Room(int length)
    {
        if (_used + length > _buffer.Length) Array.Resize(ref _buffer, Math.Max(_buffer.Length * 2, _used + length));
        Span<byte> room = _buffer.AsSpan(_used, length);
        _used += length;
        return room;
    }
}
