using System.Globalization;
using System.Text;

namespace SiteProgress.DemoGenerator.Files;

/// <summary>Text tables as bytes: one place for line ends, marks and numbers, all without the machine's culture.</summary>
public static class TextFile
{
    /// <summary>A number with so many decimals; a rounded zero carries no minus sign.</summary>
    public static string Number(double value, int decimals)
    {
        var rounded = Math.Round(value, decimals);
        return (rounded == 0 ? 0 : value).ToString("F" + decimals, CultureInfo.InvariantCulture);
    }

    public static string Number(double? value, int decimals) => value is { } number ? Number(number, decimals) : "";

    /// <summary>A cell of a comma-separated file, in quotes where it holds a comma.</summary>
    public static string Quoted(string text) => text.Contains(',', StringComparison.Ordinal) ? "\"" + text + "\"" : text;

    public static byte[] Bytes(IEnumerable<string> lines, bool byteOrderMark = false, string lineEnd = "\n")
    {
        var text = string.Join(lineEnd, lines) + lineEnd;
        var bytes = Encoding.UTF8.GetBytes(text);
        return byteOrderMark ? [.. Encoding.UTF8.Preamble, .. bytes] : bytes;
    }
}
