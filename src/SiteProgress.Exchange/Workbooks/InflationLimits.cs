using SiteProgress.Exchange.Sources;

namespace SiteProgress.Exchange.Workbooks;

/// <summary>
/// How far an archive may grow when it is inflated. What an archive says of its own sizes is not believed: bytes are counted
/// as they come out.
/// </summary>
internal sealed class InflationLimits
{
    /// <summary>Most bytes of all entries that are read, together.</summary>
    public const long MostBytes = 1L << 30;

    /// <summary>Most bytes that come out for one that goes in.</summary>
    public const int MostRatio = 200;

    /// <summary>Most entries of an archive.</summary>
    public const int MostEntries = 1_000;

    /// <summary>Small entries may be of one repeated byte; the ratio counts from here on.</summary>
    private const long RatioCountsFrom = 1L << 20;

    private long _bytes;

    /// <summary>A stream that counts what comes out of an entry.</summary>
    /// <param name="inflated">The entry's stream.</param>
    /// <param name="compressedBytes">Its bytes in the archive.</param>
    public Stream Count(Stream inflated, long compressedBytes) => new Counted(inflated, compressedBytes, this);

    /// <summary>Begins to count anew, where a file is read another time.</summary>
    public void Restart() => _bytes = 0;

    private void Add(int count, long ofEntry, long compressedBytes)
    {
        _bytes += count;
        if (_bytes > MostBytes)
            throw new BrokenFileException("a file of at most 1 GB once its archive is inflated");
        if (ofEntry > RatioCountsFrom && ofEntry > MostRatio * Math.Max(1, compressedBytes))
            throw new BrokenFileException("an archive that inflates to at most 200 times its size; this one is made to fill the memory of its reader");
    }

    private sealed class Counted(Stream inner, long compressedBytes, InflationLimits limits) : ForwardStream
    {
        private long _read;

        public override int Read(Span<byte> buffer)
        {
            var count = inner.Read(buffer);
            _read += count;
            limits.Add(count, _read, compressedBytes);
            return count;
        }

        protected override void Dispose(bool disposing)
        {
            if (disposing)
                inner.Dispose();
            base.Dispose(disposing);
        }
    }
}
