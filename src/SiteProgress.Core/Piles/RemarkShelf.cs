using System.IO.Compression;
using System.Text;

namespace SiteProgress.Core.Piles;

/// <summary>
/// Where the remarks of one file or of one append are put. The same short words are kept once; all others go, one behind the
/// other, into blocks that are packed when they are full. For one thread at a time, until it is closed; what it gave may then be
/// read by any number.
/// </summary>
public sealed class RemarkShelf
{
    private const int LongestKeptOnce = 60;
    private const int MostKeptOnce = 10_000;

    private readonly HashSet<Remark> _once = new(ByText.Instance);
    private readonly HashSet<Remark>.AlternateLookup<ReadOnlySpan<char>> _found;
    private PackedTexts _block = new();

    /// <summary>An empty shelf.</summary>
    public RemarkShelf() => _found = _once.GetAlternateLookup<ReadOnlySpan<char>>();

    /// <summary>Keeps a text.</summary>
    public Remark Keep(ReadOnlySpan<char> text)
    {
        if (text.Length <= LongestKeptOnce)
        {
            if (_found.TryGetValue(text, out Remark? known)) return known;
            Remark remark = new(text.ToString());
            if (_once.Count < MostKeptOnce)
            {
                _once.Add(remark);
                return remark;
            }
        }

        if (!_block.HasRoomFor(text))
        {
            _block.Pack();
            _block = new PackedTexts();
        }

        return _block.Add(text);
    }

    /// <summary>Packs what came last.</summary>
    public void Close()
    {
        _block.Pack();
        _block = new PackedTexts();
    }

    private sealed class ByText : IEqualityComparer<Remark>, IAlternateEqualityComparer<ReadOnlySpan<char>, Remark>
    {
        public static readonly ByText Instance = new();

        public bool Equals(Remark? one, Remark? other) => one == other;

        public int GetHashCode(Remark remark) => string.GetHashCode(remark.Text);

        public bool Equals(ReadOnlySpan<char> text, Remark remark) => text.SequenceEqual(remark.Text);

        public int GetHashCode(ReadOnlySpan<char> text) => string.GetHashCode(text);

        public Remark Create(ReadOnlySpan<char> text) => new(text.ToString());
    }
}

/// <summary>Texts one behind the other as UTF-8, deflated once nothing is added any more.</summary>
internal sealed class PackedTexts
{
    // Below the size from which an array counts as large, so that what was unpacked goes with the next small collection.
    private const int MostBytes = 64 * 1024;

    private byte[] _bytes = [];
    private int _used;
    private bool _isPacked;

    // What was unpacked last stays while the collector has no use for its room: remarks are mostly asked for in order.
    private WeakReference<byte[]>? _unpacked;

    public bool HasRoomFor(ReadOnlySpan<char> text) => _used == 0 || _used + Encoding.UTF8.GetByteCount(text) <= MostBytes;

    public Remark Add(ReadOnlySpan<char> text)
    {
        int length = Encoding.UTF8.GetByteCount(text);
        if (_used + length > _bytes.Length) Array.Resize(ref _bytes, Math.Max(_used + length, Math.Min(MostBytes, Math.Max(256, 4 * _bytes.Length))));
        Encoding.UTF8.GetBytes(text, _bytes.AsSpan(_used));
        Remark remark = new(this, _used, length);
        _used += length;
        return remark;
    }

    public void Pack()
    {
        if (_used == 0) return;
        using MemoryStream packed = new();
        using (DeflateStream deflate = new(packed, CompressionLevel.Fastest, leaveOpen: true)) deflate.Write(_bytes, 0, _used);
        _isPacked = packed.Length < _used;
        _bytes = _isPacked ? packed.ToArray() : _bytes[.._used];
    }

    public string Read(int offset, int length) => Encoding.UTF8.GetString(Bytes(), offset, length);

    private byte[] Bytes()
    {
        if (!_isPacked) return _bytes;
        if (_unpacked is { } before && before.TryGetTarget(out byte[]? known)) return known;
        byte[] bytes = new byte[_used];
        using MemoryStream packed = new(_bytes);
        using DeflateStream inflate = new(packed, CompressionMode.Decompress);
        inflate.ReadExactly(bytes);
        _unpacked = new WeakReference<byte[]>(bytes);
        return bytes;
    }
}
