using System.Globalization;
using System.Text;

namespace SiteProgress.Core.Design.Layouts;

/// <summary>The pattern of a numbering rule, read.</summary>
internal sealed class NumberPattern
{
    private const int LongestPattern = 60;
    private const int MostDigits = 9;
    private static readonly string[] Names = ["count", "row", "letter", "place"];
    private readonly List<(string Text, string? Name, int Digits)> parts;

    private NumberPattern(List<(string, string?, int)> parts) => this.parts = parts;

    /// <summary>True where the row stands in letters.</summary>
    public bool HasLetters => parts.Any(part => part.Name == "letter");

    /// <summary>Reads a pattern, or says what is wrong with it.</summary>
    public static (NumberPattern? Pattern, LayoutProblem? Problem) Read(string pattern)
    {
        if (string.IsNullOrWhiteSpace(pattern)) return (null, new LayoutProblem("Numbers", "nothing", "a pattern such as A-{count:4} or B{row:2}-C{place:2}"));
        if (pattern.Length > LongestPattern) return (null, new LayoutProblem("Numbers", pattern[..LongestPattern] + "…", "a pattern of at most 60 characters"));
        List<(string, string?, int)> parts = [];
        int at = 0;
        while (at < pattern.Length)
        {
            int open = pattern.IndexOf('{', at);
            string text = open < 0 ? pattern[at..] : pattern[at..open];
            if (text.Contains('}', StringComparison.Ordinal)) return (null, Wrong(pattern));
            if (text.Length > 0) parts.Add((text, null, 0));
            if (open < 0) break;
            int close = pattern.IndexOf('}', open);
            if (close < 0 || Part(pattern[(open + 1)..close]) is not { } part) return (null, Wrong(pattern));
            parts.Add(("", part.Name, part.Digits));
            at = close + 1;
        }

        return (new NumberPattern(parts), null);
    }

    /// <summary>The number of a pile.</summary>
    /// <param name="count">Running number.</param>
    /// <param name="row">Number of its row.</param>
    /// <param name="place">Number in its row.</param>
    public string Number(long count, long row, long place)
    {
        StringBuilder number = new();
        foreach ((string text, string? name, int digits) in parts)
        {
            _ = name switch
            {
                null => number.Append(text),
                "letter" => number.Append(Letters(row)),
                _ => number.Append((name switch { "count" => count, "row" => row, _ => place }).ToString("D" + digits.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture)),
            };
        }

        return number.ToString();
    }

    /// <summary>1 is A, 26 is Z, 27 is AA.</summary>
    internal static string Letters(long row)
    {
        string letters = "";
        for (long left = row; left > 0; left = (left - 1) / 26) letters = (char)('A' + ((left - 1) % 26)) + letters;
        return letters;
    }

    private static (string Name, int Digits)? Part(string inside)
    {
        string[] two = inside.Split(':');
        if (two.Length > 2 || !Names.Contains(two[0], StringComparer.Ordinal)) return null;
        if (two.Length == 1) return (two[0], 1);
        return two[0] != "letter" && int.TryParse(two[1], NumberStyles.None, CultureInfo.InvariantCulture, out int digits) && digits is >= 1 and <= MostDigits ? (two[0], digits) : null;
    }

    private static LayoutProblem Wrong(string pattern)
        => new("Numbers", pattern, "{count}, {row}, {letter} or {place} between braces, with the least number of digits after a colon, such as {count:4}");
}
