using System.Globalization;
using System.Text;

namespace SiteProgress.Exchange;

/// <summary>One thing in a file that a person must know: where it is, what was found, what was expected.</summary>
/// <param name="Line">Line in the file, counted from 1; 0 where the whole file is meant.</param>
/// <param name="Column">Title of the column, where one is meant.</param>
/// <param name="Found">What stands in the file, at most 80 characters, without control characters.</param>
/// <param name="Expected">What was expected, as a phrase for a person.</param>
/// <param name="WholeFile">True where nothing of the file can be used.</param>
public sealed record ImportProblem(long Line, string? Column, string? Found, string Expected, bool WholeFile)
{
    private const int MostFoundCharacters = 80;

    /// <summary>What stands in the file, at most 80 characters, without control characters.</summary>
    public string? Found { get; } = Found is null ? null : Shorten(Found);

    /// <summary>One sentence: line, column, what was found, what was expected.</summary>
    public string Sentence
    {
        get
        {
            var place = Line > 0 ? string.Create(CultureInfo.InvariantCulture, $"Line {Line}") : "File";
            var column = Column is null ? "" : $", column {Column}";
            var found = Found switch
            {
                null => "",
                "" => " found nothing;",
                _ => $" found \u201C{Found}\u201D;",
            };
            return $"{place}{column}:{found} expected {Expected}.";
        }
    }

    /// <summary>Cuts a text to 80 characters and puts a visible mark in the place of each character that has no shape.</summary>
    internal static string Shorten(ReadOnlySpan<char> text)
    {
        var builder = new StringBuilder(Math.Min(text.Length, MostFoundCharacters) + 1);
        foreach (var character in text)
        {
            if (builder.Length == MostFoundCharacters - 1 && text.Length > MostFoundCharacters)
            {
                builder.Append('\u2026');
                break;
            }

            builder.Append(HasShape(character) ? character : '\uFFFD');
        }

        return builder.ToString();
    }

    private static bool HasShape(char character) => CharUnicodeInfo.GetUnicodeCategory(character)
        is not (UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.Surrogate
            or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator or UnicodeCategory.OtherNotAssigned);
}
