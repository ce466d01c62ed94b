namespace SiteProgress.Exchange.Tests;

/// <summary>A stream that cannot go back and makes its bytes as they are read: as long as a test needs, without the memory.</summary>
internal sealed class GeneratedStream : Stream
{
    private readonly byte[] _before;
    private readonly byte[] _repeated;
    private readonly long _repeatedBytes;
    private readonly byte[] _after;
    private readonly int _mostAtOnce;

    public GeneratedStream(byte[] before, byte filler, long fillerBytes, byte[] after)
        : this(before, [.. Enumerable.Repeat(filler, 64 * 1024)], fillerBytes, after)
    {
    }

    public GeneratedStream(byte[] before, byte[] repeated, long repeatedBytes, byte[]? after = null, int mostAtOnce = int.MaxValue)
        => (_before, _repeated, _repeatedBytes, _after, _mostAtOnce) = (before, repeated, repeatedBytes, after ?? [], mostAtOnce);

    public long BytesGiven { get; private set; }

    public override bool CanRead => true;

    public override bool CanSeek => false;

    public override bool CanWrite => false;

    public override long Length => throw new NotSupportedException();

    public override long Position
    {
        get => throw new NotSupportedException();
        set => throw new NotSupportedException();
    }

    public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

    public override int Read(Span<byte> buffer)
    {
        var part = buffer[..Math.Min(buffer.Length, _mostAtOnce)];
        var given = 0;
        while (given < part.Length && Give(part[given..]) is var piece and > 0)
            given += piece;
        return given;
    }

    public override void Flush()
    {
    }

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    private int Give(Span<byte> into)
    {
        var inRepeated = BytesGiven - _before.Length;
        var inAfter = inRepeated - _repeatedBytes;
        ReadOnlySpan<byte> source = inRepeated < 0
            ? _before.AsSpan((int)BytesGiven)
            : inAfter < 0
                ? _repeated.AsSpan((int)(inRepeated % _repeated.Length))
                : _after.AsSpan((int)Math.Min(inAfter, _after.Length));
        var length = (int)Math.Min(Math.Min(source.Length, into.Length), inRepeated >= 0 && inAfter < 0 ? -inAfter : long.MaxValue);
        source[..length].CopyTo(into);
        BytesGiven += length;
        return length;
    }
}
