using System.Buffers;
using System.Globalization;

namespace SiteProgress.Exchange.TextTables;

/// <summary>
/// The pile numbers a site allows. The rule also keeps out what spreadsheets and browsers would run: a number that begins
/// like a formula, and markup.
/// </summary>
internal sealed class PileNumberRule
{
    /// <summary>Longest pile number.</summary>
    public const int MostCharacters = 40;

    private static readonly SearchValues<char> NumberCharacters = SearchValues.Create("0123456789.,");

    private static readonly string[] MonthNames =
        ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];

    private readonly string _characters;
    private readonly List<(char First, char Last)> _ranges = [];

    /// <param name="characters">Character class without brackets: characters and ranges such as <c>A-Z0-9-</c>; a backslash takes the next one as it is.</param>
    public PileNumberRule(string characters)
    {
        ArgumentException.ThrowIfNullOrEmpty(characters);
        _characters = characters;
        for (var index = 0; index < characters.Length; index++)
        {
            if (characters[index] == '\\' && index + 1 < characters.Length)
                index++;
            var first = characters[index];
            var isRange = index + 2 < characters.Length && characters[index + 1] == '-';
            _ranges.Add((first, isRange ? characters[index + 2] : first));
            index += isRange ? 2 : 0;
        }
    }

    /// <summary>Judges a pile number.</summary>
    /// <param name="number">The number, trimmed and not blank.</param>
    /// <param name="suspicion">What to look at, where the number is allowed but looks changed by a spreadsheet.</param>
    /// <returns>Null where it is allowed, otherwise what was expected.</returns>
    public string? Judge(ReadOnlySpan<char> number, out string? suspicion)
    {
        suspicion = null;
        var mangled = Mangled(number);
        var refused = Refuse(number);
        if (refused is null)
        {
            suspicion = mangled;
            return null;
        }

        return mangled is null ? refused : $"{refused}; {mangled}";
    }

    private string? Refuse(ReadOnlySpan<char> number)
    {
        if (number[0] is '=' or '+' or '-' or '@')
            return "a pile number; this begins like a spreadsheet formula";
        if (number.Length > MostCharacters)
            return "a pile number of at most 40 characters";
        foreach (var character in number)
        {
            if (!IsAllowed(character))
                return $"a pile number of the characters {_characters} that this site allows";
        }

        return null;
    }

    private bool IsAllowed(char character)
    {
        foreach (var (first, last) in _ranges)
        {
            if (character >= first && character <= last)
                return true;
        }

        return false;
    }

    private static string? Mangled(ReadOnlySpan<char> number)
    {
        foreach (var character in number)
        {
            if (character is >= '\uFF01' and <= '\uFF5E')
                return "it has full-width characters, which look like others and are not";
        }

        if (LooksLikeExponent(number))
            return "it looks like a number that a spreadsheet wrote with an exponent";
        return LooksLikeDate(number) ? "it looks like a date that a spreadsheet made of a pile number" : null;
    }

    /// <summary>12E+05, 1.2E+05, 1,2E+05.</summary>
    private static bool LooksLikeExponent(ReadOnlySpan<char> number)
    {
        var at = number.IndexOfAny('E', 'e');
        return at > 0 && at + 2 < number.Length && number[at + 1] is '+' or '-'
            && number[..at].IndexOfAnyExcept(NumberCharacters) < 0
            && number[(at + 2)..].IndexOfAnyExceptInRange('0', '9') < 0;
    }

    /// <summary>3-Dec, Dec-03, 03.12.2026, 2026-12-03.</summary>
    private static bool LooksLikeDate(ReadOnlySpan<char> number)
    {
        var at = number.IndexOf('-');
        if (at > 0 && at + 1 < number.Length && number[(at + 1)..].IndexOf('-') < 0)
            return (IsMonth(number[..at]) && IsDigits(number[(at + 1)..])) || (IsDigits(number[..at]) && IsMonth(number[(at + 1)..]));
        if (number.Length is < 8 or > 10 || !char.IsAsciiDigit(number[0]))
            return false;
        return TimeCell.Read($"{number} 00:00", DayMonthOrder.DayFirst, out var day) is null && day.Local.Year is >= 1900 and <= 2100;
    }

    /// <summary>Day and month of a number that looks like a date; null where it does not.</summary>
    /// <param name="number">The number.</param>
    public static (int Day, int Month)? DayAndMonth(ReadOnlySpan<char> number)
    {
        if (!LooksLikeDate(number))
            return null;
        var at = number.IndexOf('-');
        if (at > 0 && (IsMonth(number[..at]) || IsMonth(number[(at + 1)..])))
        {
            var (word, digits) = IsMonth(number[..at])
                ? (number[..at].ToString(), number[(at + 1)..].ToString())
                : (number[(at + 1)..].ToString(), number[..at].ToString());
            return (int.Parse(digits, CultureInfo.InvariantCulture), Array.FindIndex(MonthNames, word.ToLowerInvariant().Equals) + 1);
        }

        return TimeCell.Read($"{number} 00:00", DayMonthOrder.DayFirst, out var date) is null ? (date.Local.Day, date.Local.Month) : null;
    }

    private static bool IsDigits(ReadOnlySpan<char> text) => text.Length is 1 or 2 or 4 && text.IndexOfAnyExceptInRange('0', '9') < 0;

    private static bool IsMonth(ReadOnlySpan<char> text)
    {
        foreach (var month in MonthNames)
        {
            if (text.Equals(month, StringComparison.OrdinalIgnoreCase))
                return true;
        }

        return false;
    }
}
