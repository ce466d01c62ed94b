using System.Globalization;

namespace SiteProgress.Exchange.TextTables;

/// <summary>How a cell reads as a number.</summary>
internal enum NumberState
{
    /// <summary>A number.</summary>
    Good,

    /// <summary>Nothing but blanks.</summary>
    Blank,

    /// <summary>Not a plain decimal number.</summary>
    NotANumber,

    /// <summary>A mark that may part thousands or begin the decimals.</summary>
    Ambiguous,

    /// <summary>A number written with the other decimal mark than the rest of the file.</summary>
    OtherMark,
}

/// <summary>What a cell says about the decimal mark of its file.</summary>
internal enum MarkEvidence
{
    /// <summary>Nothing.</summary>
    None,

    /// <summary>It can only be a decimal point.</summary>
    Point,

    /// <summary>It can only be a decimal comma.</summary>
    Comma,

    /// <summary>A decimal point, or a point between thousands.</summary>
    PointOrThousands,

    /// <summary>A decimal comma, or a comma between thousands.</summary>
    CommaOrThousands,
}

/// <summary>
/// Reads plain decimal numbers: sign, digits, one decimal mark, and marks between thousands only where they can be
/// nothing else. Exponents, NaN, infinity and hexadecimal are not numbers of a survey and are refused.
/// </summary>
internal static class NumberCell
{
    private const int MostCharacters = 48;

    /// <summary>Reads a cell.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="decimalComma">True where the file writes a decimal comma.</param>
    /// <param name="value">The number; 0 unless the state is good.</param>
    /// <returns>How the cell reads.</returns>
    public static NumberState Read(ReadOnlySpan<char> cell, bool decimalComma, out double value)
    {
        var (mark, other) = decimalComma ? (',', '.') : ('.', ',');
        var state = Parse(cell.Trim(), mark, other, out value);
        if (state is NumberState.NotANumber && Parse(cell.Trim(), other, mark, out _) is NumberState.Good)
            state = NumberState.OtherMark;
        return state;
    }

    /// <summary>What one cell says about the decimal mark of its file.</summary>
    /// <param name="cell">The cell.</param>
    public static MarkEvidence Evidence(ReadOnlySpan<char> cell)
    {
        var text = cell.Trim();
        return (Parse(text, '.', ',', out _), Parse(text, ',', '.', out _)) switch
        {
            (NumberState.Good, NumberState.NotANumber) => MarkEvidence.Point,
            (NumberState.NotANumber, NumberState.Good) => MarkEvidence.Comma,
            (NumberState.Good, NumberState.Ambiguous) => MarkEvidence.PointOrThousands,
            (NumberState.Ambiguous, NumberState.Good) => MarkEvidence.CommaOrThousands,
            _ => MarkEvidence.None,
        };
    }

    private static NumberState Parse(ReadOnlySpan<char> text, char mark, char other, out double value)
    {
        value = 0;
        if (text.IsEmpty)
            return NumberState.Blank;
        if (text.Length > MostCharacters)
            return NumberState.NotANumber;

        Span<char> plain = stackalloc char[MostCharacters];
        var length = 0;
        if (text[0] is '-' or '\u2212' or '+')
        {
            if (text[0] != '+')
                plain[length++] = '-';
            text = text[1..];
        }

        var markAt = text.IndexOf(mark);
        var whole = markAt < 0 ? text : text[..markAt];
        var state = AppendWhole(whole, other, hasDecimals: markAt >= 0, plain, ref length);
        if (state is not NumberState.Good)
            return state;
        if (markAt >= 0 && !AppendDecimals(text[(markAt + 1)..], plain, ref length))
            return NumberState.NotANumber;

        var good = double.TryParse(
            plain[..length], NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out value);
        return good ? NumberState.Good : NumberState.NotANumber;
    }

    private static NumberState AppendWhole(
        ReadOnlySpan<char> whole, char other, bool hasDecimals, Span<char> plain, ref int length)
    {
        if (whole.IsEmpty)
            return hasDecimals ? NumberState.Good : NumberState.NotANumber;

        var separator = '\0';
        int groups = 0, digitsInGroup = 0;
        foreach (var character in whole)
        {
            if (char.IsAsciiDigit(character))
            {
                plain[length++] = character;
                digitsInGroup++;
                continue;
            }

            var parts = character == other || character is ' ' or '\u00A0' or '\u2009' or '\u202F' or '\'' or '\u2019';
            var fits = groups == 0 ? digitsInGroup is >= 1 and <= 3 && whole[0] != '0' : digitsInGroup == 3 && character == separator;
            if (!parts || !fits)
                return NumberState.NotANumber;
            (separator, digitsInGroup) = (character, 0);
            groups++;
        }

        if (groups > 0 && digitsInGroup != 3)
            return NumberState.NotANumber;
        return groups == 1 && separator == other && !hasDecimals ? NumberState.Ambiguous : NumberState.Good;
    }

    private static bool AppendDecimals(ReadOnlySpan<char> decimals, Span<char> plain, ref int length)
    {
        if (decimals.IsEmpty || decimals.IndexOfAnyExceptInRange('0', '9') >= 0)
            return false;
        plain[length++] = '.';
        decimals.CopyTo(plain[length..]);
        length += decimals.Length;
        return true;
    }
}
