namespace SiteProgress.Core.Records;

/// <summary>A SHA-256 hash in a site's chain.</summary>
public sealed class ChainHash : IEquatable<ChainHash>
{
    /// <summary>Length in bytes.</summary>
    public static readonly int Length = 32;

    private readonly byte[] _bytes;

    /// <summary>Takes the 32 bytes of a hash.</summary>
    /// <exception cref="ArgumentException">There are not 32 bytes.</exception>
    public ChainHash(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length != Length) throw new ArgumentException($"A chain hash has {Length} bytes, not {bytes.Length}.", nameof(bytes));
        _bytes = bytes.ToArray();
    }

    /// <summary>What stands before the first record of a site: 32 zero bytes.</summary>
    public static ChainHash BeforeFirst { get; } = new(new byte[32]);

    /// <summary>The bytes.</summary>
    public ReadOnlyMemory<byte> Bytes => _bytes;

    /// <summary>Reads 64 hexadecimal digits.</summary>
    /// <exception cref="FormatException">They are not that.</exception>
    public static ChainHash FromHex(string hex) => new(Convert.FromHexString(hex));

    /// <summary>64 lower-case hexadecimal digits.</summary>
    public override string ToString() => Convert.ToHexStringLower(_bytes);

    /// <inheritdoc />
    public bool Equals(ChainHash? other) => other is not null && _bytes.AsSpan().SequenceEqual(other._bytes);

    /// <inheritdoc />
    public override bool Equals(object? obj) => Equals(obj as ChainHash);

    /// <inheritdoc />
    public override int GetHashCode() => BitConverter.ToInt32(_bytes, 0);
}
