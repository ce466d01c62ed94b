using SiteProgress.Core.Piles;

namespace SiteProgress.Exchange.Attachments;

/// <summary>Says what a file is by its bytes; its name and what its sender says of it count for nothing.</summary>
public static class PictureOrDocument
{
    /// <summary>Bytes from the end in which a PDF's end mark must stand (ISO 32000-1, annex H.3, implementation note 18; from memory).</summary>
    private const int PdfTail = 1024;

    /// <summary>Largest side of a picture, pixels: what no camera of today exceeds.</summary>
    private const int MostPixels = 30_000;

    private static ReadOnlySpan<byte> PngBegin => [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A];

    /// <summary>What the file is.</summary>
    /// <param name="file">The file, which can be gone back in; it is left at its begin.</param>
    /// <returns>Null when it is neither a photo, nor a picture, nor a PDF document that is whole.</returns>
    public static AttachmentContent? Of(Stream file)
    {
        ArgumentNullException.ThrowIfNull(file);
        try
        {
            byte[] head = Part(file, 0, 32);
            byte[] tail = Part(file, Math.Max(0, file.Length - PdfTail), PdfTail);
            if (head.AsSpan().StartsWith("%PDF-"u8)) return tail.AsSpan().IndexOf("%%EOF"u8) >= 0 ? AttachmentContent.Pdf : null;
            if (head.AsSpan().StartsWith(PngBegin)) return IsPng(head, tail) ? AttachmentContent.Png : null;
            return head.AsSpan().StartsWith((ReadOnlySpan<byte>)[0xFF, 0xD8, 0xFF]) && IsJpeg(file) ? AttachmentContent.Jpeg : null;
        }
        finally
        {
            file.Position = 0;
        }
    }

    /// <summary>The first chunk of a PNG is its header, the last its end (ISO/IEC 15948, clauses 5.3 and 11.2).</summary>
    private static bool IsPng(byte[] head, byte[] tail)
        => head.Length >= 24 && head.AsSpan(12, 4).SequenceEqual("IHDR"u8)
            && Big(head, 16, 4) is > 0 and <= MostPixels && Big(head, 20, 4) is > 0 and <= MostPixels
            && tail.AsSpan().IndexOf("IEND"u8) >= 0;

    /// <summary>Walks the segments of a JPEG to the one that says its size (ITU-T T.81, annex B).</summary>
    private static bool IsJpeg(Stream file)
    {
        long at = 2;
        for (int segment = 0; segment < 500; segment++)
        {
            byte[] mark = Part(file, at, 9);
            if (mark.Length < 9 || mark[0] != 0xFF) return false;
            if (mark[1] == 0xFF)
            {
                at++;
                continue;
            }

            if (mark[1] is >= 0xC0 and <= 0xCF and not (0xC4 or 0xC8 or 0xCC)) return Big(mark, 5, 2) is > 0 and <= MostPixels && Big(mark, 7, 2) is > 0 and <= MostPixels;
            if (mark[1] is 0xD9 or 0xDA) return false;
            long length = Big(mark, 2, 2);
            if (length < 2) return false;
            at += 2 + length;
        }

        return false;
    }

    private static long Big(byte[] bytes, int at, int count)
    {
        long value = 0;
        for (int index = at; index < at + count; index++) value = (value << 8) | bytes[index];
        return value;
    }

    private static byte[] Part(Stream file, long at, int most)
    {
        file.Position = Math.Min(at, file.Length);
        byte[] part = new byte[most];
        int read = file.ReadAtLeast(part, most, throwOnEndOfStream: false);
        return part[..read];
    }
}
