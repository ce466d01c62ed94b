using System.Globalization;
using System.Text;

namespace SiteProgress.Core.Coordinates.Definitions;

/// <summary>Reads the bracket structure of a well-known text (OGC 01-009 section 7, and ISO 19162, which nests the same way).</summary>
internal sealed class WktParser
{
    private const int DeepestNesting = 32;
    private readonly string text;
    private int at;
    private int depth;

    private WktParser(string text) => this.text = text;

    /// <summary>The root element, or a reason that says where the text goes wrong.</summary>
    public static (WktNode? Root, string? Reason) Parse(string text)
    {
        var parser = new WktParser(text);
        try
        {
            var root = parser.Element();
            parser.SkipSpace();
            return parser.at == text.Length
                ? (root, null)
                : (null, $"After the end of the definition, at character {parser.at + 1}, more text follows.");
        }
        catch (WktException exception)
        {
            return (null, exception.Message);
        }
    }

    private WktNode Element()
    {
        if (++depth > DeepestNesting) throw new WktException("The definition is nested too deeply to be a coordinate system.");
        SkipSpace();
        var keyword = Word();
        if (keyword.Length == 0) throw Wrong("a keyword such as PROJCS");
        SkipSpace();
        if (!Take('[') && !Take('(')) throw Wrong("an opening bracket");
        var texts = new List<string>();
        var numbers = new List<double>();
        var children = new List<WktNode>();
        var words = new List<string>();
        do
        {
            SkipSpace();
            if (at >= text.Length) throw Wrong("a value");
            var c = text[at];
            if (c == '"') texts.Add(Quoted());
            else if (char.IsAsciiDigit(c) || c is '-' or '+' or '.') numbers.Add(Number());
            else
            {
                var start = at;
                var word = Word();
                SkipSpace();
                if (word.Length == 0) throw Wrong("a value");
                if (at < text.Length && text[at] is '[' or '(')
                {
                    at = start;
                    children.Add(Element());
                }
                else words.Add(word);
            }

            SkipSpace();
        }
        while (Take(','));
        if (!Take(']') && !Take(')')) throw Wrong("a comma or a closing bracket");
        depth--;
        return new(keyword.ToUpperInvariant(), texts, numbers, children, words);
    }

    private string Word()
    {
        var start = at;
        while (at < text.Length && (char.IsAsciiLetterOrDigit(text[at]) || text[at] == '_')) at++;
        return text[start..at];
    }

    private string Quoted()
    {
        var start = at++;
        var value = new StringBuilder();
        while (at < text.Length)
        {
            if (text[at] != '"')
            {
                value.Append(text[at++]);
                continue;
            }

            if (at + 1 >= text.Length || text[at + 1] != '"')
            {
                at++;
                return value.ToString();
            }

            value.Append('"');
            at += 2;
        }

        at = start;
        throw Wrong("a text closed by a quotation mark");
    }

    private double Number()
    {
        var start = at;
        while (at < text.Length && (char.IsAsciiDigit(text[at]) || text[at] is '-' or '+' or '.' or 'e' or 'E')) at++;
        if (double.TryParse(text.AsSpan(start, at - start), NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value)) return value;
        at = start;
        throw Wrong("a number");
    }

    private void SkipSpace()
    {
        while (at < text.Length && char.IsWhiteSpace(text[at])) at++;
    }

    private bool Take(char expected)
    {
        if (at >= text.Length || text[at] != expected) return false;
        at++;
        return true;
    }

    private WktException Wrong(string expected) => at >= text.Length
        ? new($"The definition ends after {text.Length} characters, where {expected} was expected: it looks cut short.")
        : new($"At character {at + 1} of the definition, {expected} was expected, not '{text[at]}'.");

    private sealed class WktException(string message) : Exception(message);
}
