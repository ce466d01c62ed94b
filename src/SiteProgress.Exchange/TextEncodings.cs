using System.Text;

namespace SiteProgress.Exchange;

/// <summary>Encodings of text tables that a person may choose where the bytes do not say which one it is.</summary>
public static class TextEncodings
{
    private static readonly (string Name, string Words, int CodePage)[] Known =
    [
        ("utf-8", "UTF-8", 65001),
        ("utf-16le", "UTF-16, little end first", 1200),
        ("utf-16be", "UTF-16, big end first", 1201),
        ("windows-1252", "Windows-1252, Western European", 1252),
        ("windows-1250", "Windows-1250, Central European", 1250),
        ("windows-1251", "Windows-1251, Cyrillic", 1251),
        ("windows-1253", "Windows-1253, Greek", 1253),
        ("windows-1254", "Windows-1254, Turkish", 1254),
        ("windows-1258", "Windows-1258, Vietnamese", 1258),
        ("windows-874", "Windows-874, Thai", 874),
        ("iso-8859-15", "ISO 8859-15, Western European", 28605),
        ("ibm850", "code page 850, Western European, of old consoles", 850),
        ("shift_jis", "Shift-JIS, Japanese", 932),
        ("euc-jp", "EUC-JP, Japanese", 51932),
        ("gb18030", "GB 18030, simplified Chinese", 54936),
        ("big5", "Big5, traditional Chinese", 950),
        ("euc-kr", "Windows-949, Korean", 949),
    ];

    /// <summary>Names and words of all encodings, in the order of a list for a person.</summary>
    public static IReadOnlyList<(string Name, string Words)> All { get; } = [.. Known.Select(one => (one.Name, one.Words))];

    /// <summary>Words of an encoding.</summary>
    /// <param name="name">Name of the encoding.</param>
    /// <returns>The words; null for a name that is not known.</returns>
    public static string? Words(string name) => Known.FirstOrDefault(one => one.Name == name).Words;

    /// <summary>The encoding of a name; bytes that it does not have become U+FFFD.</summary>
    /// <param name="name">Name of the encoding.</param>
    internal static Encoding? Find(string name)
    {
        var page = Known.FirstOrDefault(one => one.Name == name).CodePage;
        return page is 0
            ? null
            : CodePagesEncodingProvider.Instance.GetEncoding(page, EncoderFallback.ReplacementFallback, new DecoderReplacementFallback("\uFFFD"))
                ?? Encoding.GetEncoding(page, EncoderFallback.ReplacementFallback, new DecoderReplacementFallback("\uFFFD"));
    }
}
