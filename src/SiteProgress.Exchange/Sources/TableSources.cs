using SiteProgress.Exchange.Drawings;
using SiteProgress.Exchange.GroundInvestigations;
using SiteProgress.Exchange.MapFiles;
using SiteProgress.Exchange.Workbooks;

namespace SiteProgress.Exchange.Sources;

/// <summary>Recognises the format of a file by its first bytes, whatever its name says, and opens it.</summary>
internal static class TableSources
{
    private const int HeadBytes = 4096;

    /// <summary>Opens a file. Bad content becomes a source with a refusal, never an exception.</summary>
    /// <param name="stream">The bytes, from where the stream stands. Only a text can be read from a stream that cannot go back.</param>
    /// <param name="choices">What to read with.</param>
    /// <param name="cancellation">Ends the reading.</param>
    public static TableSource Open(Stream stream, ReadingChoices choices, CancellationToken cancellation)
    {
        if (!stream.CanSeek)
            return new TextSource(stream, choices, cancellation);

        var begin = stream.Position;
        var head = new byte[HeadBytes];
        head = head[..stream.ReadAtLeast(head, head.Length, throwOnEndOfStream: false)];
        stream.Position = begin;
        if (Opener(head) is not var (format, open))
            return new TextSource(stream, choices, cancellation);
        try
        {
            return open(stream, choices, cancellation);
        }
        catch (Exception exception) when (RowRecords.Expectation(exception, format) is { } expected)
        {
            return new RefusedSource(expected);
        }
    }

    private static (string Format, Func<Stream, ReadingChoices, CancellationToken, TableSource> Open)? Opener(ReadOnlySpan<byte> head)
    {
        if (head.StartsWith("PK\u0003\u0004"u8) || head.StartsWith("PK\u0005\u0006"u8))
            return (WorkbookSource.Format, (stream, choices, cancellation) => new WorkbookSource(stream, choices, cancellation));
        if (head.StartsWith("SQLite format 3\0"u8))
            return (GeoPackageSource.Format, (stream, choices, cancellation) => new GeoPackageSource(stream, choices, cancellation));
        if (DxfSource.Recognises(head))
            return (DxfSource.Format, (stream, choices, cancellation) => new DxfSource(stream, choices, cancellation));
        if (AgsSource.Recognises(head))
            return (AgsSource.Format, (stream, choices, cancellation) => new AgsSource(stream, choices, cancellation));

        return FirstLetters(head) switch
        {
            [(byte)'{', ..] => (GeoJsonSource.Format, (stream, choices, cancellation) => new GeoJsonSource(stream, choices, cancellation)),
            [(byte)'<', ..] => (LandXmlSource.Format, (stream, choices, cancellation) => new LandXmlSource(stream, choices, cancellation)),
            _ => null,
        };
    }

    /// <summary>The head without a byte order mark, zero bytes of UTF-16 and blanks at its beginning.</summary>
    private static ReadOnlySpan<byte> FirstLetters(ReadOnlySpan<byte> head)
        => head.TrimStart((ReadOnlySpan<byte>)[0xEF, 0xBB, 0xBF, 0xFF, 0xFE, 0x00, (byte)' ', (byte)'\t', (byte)'\r', (byte)'\n']);

    /// <summary>A file that cannot be read.</summary>
    private sealed class RefusedSource : TableSource
    {
        public RefusedSource(string expected) => Refusal = expected;

        public override IReadOnlyList<TableWay> Ways => [];

        public override IRecords Beginning(TableWay way) => new RowRecords([], "", default);

        public override IRecords All(TableWay way) => new RowRecords([], "", default);

        public override string Describe(TableWay way) => "";
    }
}
