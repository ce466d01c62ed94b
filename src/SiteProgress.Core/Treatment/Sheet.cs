using System.Security.Cryptography;
using System.Text;

namespace SiteProgress.Core.Treatment;

/// <summary>
/// What is put before a person who signs: labelled lines, and nothing else. The page draws these lines; the signature keeps the
/// SHA-256 (FIPS 180-4) of their canonical bytes, so what was signed can be told from what stands now.
/// </summary>
/// <remarks>
/// Canonical bytes, UTF-8, a line feed after each line: <c>siteprogress sheet 1</c>, the title, then <c>label: value</c> in
/// order. A line feed or backslash inside a text is written as <c>\n</c> or <c>\\</c>.
/// </remarks>
/// <param name="Title">What the sheet is of.</param>
/// <param name="Lines">Its lines, in order.</param>
public sealed record Sheet(string Title, IReadOnlyList<SheetLine> Lines)
{
    private string? _hash;

    /// <summary>SHA-256 of the canonical bytes, 64 lower-case hexadecimal digits.</summary>
    public string Hash => _hash ??= Convert.ToHexStringLower(SHA256.HashData(CanonicalBytes()));

    /// <summary>The bytes the hash is taken over.</summary>
    public byte[] CanonicalBytes()
    {
        StringBuilder text = new("siteprogress sheet 1\n");
        text.Append(Plain(Title)).Append('\n');
        foreach (SheetLine line in Lines) text.Append(Plain(line.Label)).Append(": ").Append(Plain(line.Value)).Append('\n');
        return Encoding.UTF8.GetBytes(text.ToString());
    }

    private static string Plain(string text)
        => text.AsSpan().IndexOfAny('\\', '\n', '\r') < 0
            ? text
            : text.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\r", "\\r", StringComparison.Ordinal).Replace("\n", "\\n", StringComparison.Ordinal);
}

/// <summary>One line of a sheet.</summary>
/// <param name="Label">What it says.</param>
/// <param name="Value">The value, with unit and frame.</param>
public sealed record SheetLine(string Label, string Value);
