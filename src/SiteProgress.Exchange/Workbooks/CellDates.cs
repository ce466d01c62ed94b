using System.Globalization;
using NodaTime;
using NodaTime.Text;

namespace SiteProgress.Exchange.Workbooks;

/// <summary>Numbers of a workbook that are dates because their style says so.</summary>
/// <remarks>
/// ECMA-376 part 1, section 18.17.4: in the 1900 system day 1 is 1 January 1900 and day 60 is a 29 February that never was;
/// in the 1904 system day 0 is 1 January 1904. Section 18.8.30 lists the numbers of the built-in formats.
/// </remarks>
internal static class CellDates
{
    private static readonly LocalDateTimePattern WithTime = LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd HH:mm:ss.fff");
    private static readonly LocalDatePattern DateOnly = LocalDatePattern.Iso;

    /// <summary>True where a built-in format shows a date or a time.</summary>
    /// <param name="format">Number of the format.</param>
    public static bool IsBuiltInDate(int format) => format is (>= 14 and <= 22) or (>= 27 and <= 36) or (>= 45 and <= 47) or (>= 50 and <= 58);

    /// <summary>True where a format of the workbook shows a date or a time: a letter of one, outside quotation marks, brackets and escapes.</summary>
    /// <param name="code">Format code.</param>
    public static bool IsDateCode(string code)
    {
        // The first section is the one for positive numbers.
        for (var at = 0; at < code.Length && code[at] != ';'; at++)
        {
            switch (code[at])
            {
                case '"':
                    at = code.IndexOf('"', at + 1) is var end and >= 0 ? end : code.Length;
                    break;
                case '\\' or '_' or '*':
                    at++;
                    break;
                case '[':
                    var close = code.IndexOf(']', at);
                    // [h] and [mm] count hours and minutes on; [Red] and [$-409] are colour and language.
                    if (close > at + 1 && code[(at + 1)..close].All(letter => letter is 'h' or 'H' or 'm' or 'M' or 's' or 'S'))
                        return true;
                    at = close < 0 ? code.Length : close;
                    break;
                case 'y' or 'Y' or 'd' or 'D' or 'h' or 'H' or 's' or 'S' or 'm' or 'M':
                    return true;
                default:
                    break;
            }
        }

        return false;
    }

    /// <summary>A day number as a date and time as text tables write it.</summary>
    /// <param name="days">Days, with the time of day as their fraction.</param>
    /// <param name="from1904">True in the 1904 system.</param>
    /// <returns>The text; null where the number is no day a calendar has.</returns>
    public static string? ToText(double days, bool from1904)
    {
        if (!(days >= 0 && days < 2_958_466))
            return null;
        var milliseconds = Math.Round(days * 86_400_000);
        // A time of day is kept as a fraction of a day, and so misses the whole second by a few microseconds.
        var second = Math.Round(milliseconds / 1000) * 1000;
        if (Math.Abs(second - milliseconds) <= 2)
            milliseconds = second;
        var whole = (int)Math.Floor(milliseconds / 86_400_000);
        if (!from1904 && whole is 0 or 60)
            return whole == 0 && milliseconds > 0 ? TimeOfDay(milliseconds) : null;

        var dayZero = from1904 ? new LocalDate(1904, 1, 1) : whole < 60 ? new LocalDate(1899, 12, 31) : new LocalDate(1899, 12, 30);
        var rest = (long)(milliseconds - (whole * 86_400_000.0));
        var date = dayZero.PlusDays(whole);
        return rest == 0 ? DateOnly.Format(date) + " 00:00" : WithTime.Format(date.AtMidnight().PlusMilliseconds(rest)).Replace(".000", "", StringComparison.Ordinal);
    }

    private static string TimeOfDay(double milliseconds)
        => LocalTimePattern.CreateWithInvariantCulture("HH:mm:ss").Format(LocalTime.FromMillisecondsSinceMidnight((int)milliseconds));

    /// <summary>A number of a workbook in plain digits, to the 15 digits that workbooks keep; null where it is none.</summary>
    /// <param name="written">The number as the file writes it, perhaps with an exponent.</param>
    public static string? PlainNumber(string written)
    {
        if (!double.TryParse(written, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) || !double.IsFinite(value))
            return null;
        if (Math.Abs(value) is > 1e15 or (> 0 and < 1e-9))
            return value.ToString("R", CultureInfo.InvariantCulture);
        return ((decimal)value).ToString("0.###############", CultureInfo.InvariantCulture);
    }
}
