namespace SiteProgress.Exchange.TextTables;

/// <summary>Recognises by the first bytes what certainly is not a text table, so that the message can say what it is.</summary>
internal static class FileSignature
{
    /// <summary>What the bytes are, or null where they may be text.</summary>
    /// <param name="head">First bytes of the file.</param>
    public static string? Describe(ReadOnlySpan<byte> head)
    {
        if (head.StartsWith("PK\u0003\u0004"u8))
            return "a zip archive or a spreadsheet workbook (xlsx)";
        if (head.StartsWith((ReadOnlySpan<byte>)[0xD0, 0xCF, 0x11, 0xE0]))
            return "an old spreadsheet workbook (xls)";
        if (head.StartsWith("%PDF"u8))
            return "a PDF document";
        if (head.StartsWith((ReadOnlySpan<byte>)[0x1F, 0x8B]))
            return "a gzip archive";
        if (head.StartsWith((ReadOnlySpan<byte>)[0x89, 0x50, 0x4E, 0x47]) || head.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xD8, 0xFF]))
            return "a picture";
        return LooksBinary(head) ? "not text at all, since it holds bytes that no text has" : null;
    }

    /// <summary>
    /// A zero byte is not text in any encoding but UTF-16 and UTF-32, where zeros are regular; other control characters
    /// are rare in text.
    /// </summary>
    private static bool LooksBinary(ReadOnlySpan<byte> head)
    {
        var part = head[..Math.Min(head.Length, 8_192)];
        if (part.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE]) || part.StartsWith((ReadOnlySpan<byte>)[0xFE, 0xFF]))
            return false;

        int control = 0, evenZeros = 0, oddZeros = 0;
        for (var index = 0; index < part.Length; index++)
        {
            var value = part[index];
            if (value == 0 && index % 2 == 0)
                evenZeros++;
            else if (value == 0)
                oddZeros++;
            else if (value < 32 && value is not (9 or 10 or 13))
                control++;
        }

        var zeros = evenZeros + oddZeros;
        var regular = Math.Min(evenZeros, oddZeros) == 0 && zeros >= 0.35 * part.Length;
        return (zeros > 0 && !regular) || control > part.Length / 50;
    }
}
