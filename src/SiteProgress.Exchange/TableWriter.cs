using System.Buffers;
using System.Globalization;
using System.Text;
using NodaTime;
using NodaTime.Text;

namespace SiteProgress.Exchange;

/// <summary>
/// Writes a table as comma-separated text after RFC 4180: CR LF at the end of every line, quotation marks around cells that
/// need them, quotation marks within doubled. Numbers have a decimal point, times an offset, whatever the culture.
/// </summary>
/// <remarks>
/// A spreadsheet takes a cell that begins with =, +, -, @, a tab or a line end for a formula, and would run what a stranger
/// wrote into a remark. Such a text gets an apostrophe in front, which spreadsheets take as "this is text"; it stays in the
/// file and is read back as part of the text. Numbers written as numbers are left as they are.
/// </remarks>
/// <param name="output">Where to; it is neither flushed nor closed.</param>
public class TableWriter(TextWriter output)
{
    private static readonly SearchValues<char> NeedQuotes = SearchValues.Create("\",\r\n");
    /// <summary>How times are written.</summary>
    protected static readonly OffsetDateTimePattern TimePattern =
        OffsetDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm:sso<+HH:mm>");

    private bool _rowBegun;

    /// <summary>UTF-8 with a byte order mark: spreadsheets take a file without one for their own old code page.</summary>
    public static Encoding Encoding { get; } = new UTF8Encoding(encoderShouldEmitUTF8Identifier: true);

    /// <summary>Writes a whole line of titles.</summary>
    /// <param name="titles">Titles, each with its unit in brackets.</param>
    /// <returns>This writer.</returns>
    public TableWriter Header(params ReadOnlySpan<string> titles)
    {
        foreach (var title in titles)
            Text(title);
        return EndRow();
    }

    /// <summary>Writes a cell of text.</summary>
    /// <param name="text">The text; null writes an empty cell.</param>
    /// <returns>This writer.</returns>
    public virtual TableWriter Text(string? text)
    {
        BeginCell();
        if (string.IsNullOrEmpty(text))
            return this;

        var safe = BeginsLikeFormula(text) ? "'" + text : text;
        if (safe.AsSpan().IndexOfAny(NeedQuotes) < 0 && safe[0] != ' ' && safe[^1] != ' ')
        {
            output.Write(safe);
            return this;
        }

        output.Write('"');
        output.Write(safe.Replace("\"", "\"\"", StringComparison.Ordinal));
        output.Write('"');
        return this;
    }

    /// <summary>Writes a number with a fixed number of decimals; null writes an empty cell.</summary>
    /// <param name="value">The number.</param>
    /// <param name="decimals">Number of decimals.</param>
    /// <returns>This writer.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The value is NaN or infinite: a table has no cell for it.</exception>
    public virtual TableWriter Number(double? value, int decimals)
    {
        BeginCell();
        if (value is not { } number)
            return this;
        if (!double.IsFinite(number))
            throw new ArgumentOutOfRangeException(nameof(value), number, "A table holds finite numbers only.");

        var text = number.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        // -0.0004 with three decimals is zero, and zero has no sign.
        output.Write(text[0] == '-' && text.AsSpan(1).IndexOfAnyExcept('0', '.') < 0 ? text[1..] : text);
        return this;
    }

    /// <summary>Writes a whole number; null writes an empty cell.</summary>
    /// <param name="value">The number.</param>
    /// <returns>This writer.</returns>
    public virtual TableWriter Whole(long? value)
    {
        BeginCell();
        output.Write(value?.ToString(CultureInfo.InvariantCulture));
        return this;
    }

    /// <summary>Writes an instant as ISO 8601 in a time zone, with its offset; null writes an empty cell.</summary>
    /// <param name="instant">The instant, written to the second.</param>
    /// <param name="zone">Time zone to write it in.</param>
    /// <returns>This writer.</returns>
    public virtual TableWriter Time(Instant? instant, DateTimeZone zone)
    {
        ArgumentNullException.ThrowIfNull(zone);
        BeginCell();
        if (instant is { } value)
            output.Write(TimePattern.Format(value.InZone(zone).ToOffsetDateTime()));
        return this;
    }

    /// <summary>Ends the line.</summary>
    /// <returns>This writer.</returns>
    public virtual TableWriter EndRow()
    {
        output.Write("\r\n");
        _rowBegun = false;
        return this;
    }

    private static bool BeginsLikeFormula(string text)
        => text[0] is '=' or '+' or '-' or '@' or '\t' or '\r' or '\n' or '\uFF1D' or '\uFF0B' or '\uFF0D' or '\uFF20';

    private void BeginCell()
    {
        if (_rowBegun)
            output.Write(',');
        _rowBegun = true;
    }
}
