using System.Buffers.Binary;
using System.IO.Compression;
using SiteProgress.Exchange.Sources;

namespace SiteProgress.Exchange.Workbooks;

/// <summary>A zip archive of a stranger: entries counted before the list of them is read, bytes counted as they come out. Nothing is unpacked to a disk.</summary>
internal sealed class BoundedArchive : IDisposable
{
    // PKWARE's APPNOTE, sections 4.3.16 and 4.3.12: end of central directory record, central directory header.
    private const int EndRecordBytes = 22;
    private const int LongestComment = 65_535;
    private const int MostDirectoryBytes = InflationLimits.MostEntries * 1024;

    private readonly ZipArchive _archive;
    private readonly InflationLimits _limits = new();

    /// <param name="stream">The archive; it stays open.</param>
    public BoundedArchive(Stream stream)
    {
        CheckDirectory(stream);
        _archive = new ZipArchive(stream, ZipArchiveMode.Read, leaveOpen: true);
        if (_archive.Entries.Count > InflationLimits.MostEntries)
            throw TooMany();
    }

    /// <summary>True where the archive has an entry of this name.</summary>
    /// <param name="name">Name with forward slashes, from the root of the archive.</param>
    public bool Has(string name) => Entry(name) is not null;

    /// <summary>Opens an entry; null where there is none of this name.</summary>
    /// <param name="name">Name with forward slashes, from the root of the archive.</param>
    public Stream? Open(string name) => Entry(name) is { } entry ? _limits.Count(entry.Open(), entry.CompressedLength) : null;

    /// <summary>Begins to count anew, where the archive is read another time.</summary>
    public void RestartCount() => _limits.Restart();

    public void Dispose() => _archive.Dispose();

    private ZipArchiveEntry? Entry(string name)
        => _archive.GetEntry(name) ?? _archive.Entries.FirstOrDefault(entry => string.Equals(entry.FullName.Replace('\\', '/'), name, StringComparison.OrdinalIgnoreCase));

    /// <summary>The library reads the whole list of entries before anyone can count it, so its length is looked at first.</summary>
    private static void CheckDirectory(Stream stream)
    {
        var begin = stream.Position;
        var length = (int)Math.Min(stream.Length, EndRecordBytes + LongestComment);
        var tail = new byte[length];
        stream.Position = stream.Length - length;
        stream.ReadExactly(tail);
        stream.Position = begin;
        var at = tail.AsSpan().LastIndexOf("PK\u0005\u0006"u8);
        if (at < 0 || at + EndRecordBytes > length)
            throw new BrokenFileException("a whole zip archive; its end is missing, so it seems to be cut off");

        var entries = BinaryPrimitives.ReadUInt16LittleEndian(tail.AsSpan(at + 10));
        var bytes = BinaryPrimitives.ReadUInt32LittleEndian(tail.AsSpan(at + 12));
        var offset = BinaryPrimitives.ReadUInt32LittleEndian(tail.AsSpan(at + 16));
        if (entries > InflationLimits.MostEntries || bytes > MostDirectoryBytes)
            throw TooMany();
        if (offset + (long)bytes != stream.Length - length + at)
            throw new BrokenFileException("a zip archive whose list of entries lies at its end; this one is damaged");
    }

    private static BrokenFileException TooMany() => new("an archive of at most 1,000 entries");
}
