using NodaTime;

namespace SiteProgress.Exchange.TextTables;

/// <summary>A date and time as written in a cell, before it is put on the time line.</summary>
/// <param name="Local">Date and time of day.</param>
/// <param name="Offset">Offset from UTC, where one is written.</param>
/// <param name="Order">Order of day and month, where the date has slashes and its numbers prove an order.</param>
/// <param name="HasSlashes">True for a date of the form 03/04/2026.</param>
internal readonly record struct WrittenTime(LocalDateTime Local, Offset? Offset, DayMonthOrder? Order, bool HasSlashes);

/// <summary>
/// Reads the ways of writing a time that cannot be mistaken: ISO 8601 with or without offset, yyyy-MM-dd HH:mm[:ss],
/// dd.MM.yyyy HH:mm[:ss], and dates with slashes once their order is known. A 12-hour clock is refused.
/// </summary>
internal static class TimeCell
{
    /// <summary>Reads a cell.</summary>
    /// <param name="cell">The cell, not blank.</param>
    /// <param name="order">Order of dates with slashes; null: taken as day first where both fit.</param>
    /// <param name="time">What it says.</param>
    /// <returns>Null where it could be read, otherwise what was expected.</returns>
    public static string? Read(ReadOnlySpan<char> cell, DayMonthOrder? order, out WrittenTime time)
    {
        time = default;
        var rest = cell.Trim();
        var complaint = ReadDate(ref rest, order, out var date, out var proven, out var slashes);
        if (complaint is not null)
            return complaint;
        if (!SkipToTimeOfDay(ref rest))
            return "a date and a time of day, such as 2026-03-10 23:50";

        complaint = ReadTimeOfDay(ref rest, out var timeOfDay);
        if (complaint is not null)
            return complaint;
        if (!TryReadOffset(rest.TrimStart(), out var offset))
            return rest.TrimStart() is ['a' or 'A' or 'p' or 'P', ..]
                ? "a time on the 24-hour clock, such as 2026-03-10 23:50"
                : "a time that ends after the seconds or with an offset such as Z or +09:00";
        time = new WrittenTime(date + timeOfDay, offset, proven, slashes);
        return null;
    }

    /// <summary>Reads a cell that holds a date without a time of day; a date of a workbook comes with midnight.</summary>
    /// <param name="cell">The cell, not blank.</param>
    /// <param name="order">Order of dates with slashes; null: taken as day first where both fit.</param>
    /// <param name="day">What it says.</param>
    /// <returns>Null where it could be read, otherwise what was expected.</returns>
    public static string? ReadDay(ReadOnlySpan<char> cell, DayMonthOrder? order, out WrittenTime day)
    {
        const string expected = "a date such as 2026-03-10 or 10.03.2026";
        day = default;
        var rest = cell.Trim();
        if (ReadDate(ref rest, order, out var date, out var proven, out var slashes) is { } complaint)
            return complaint.StartsWith("a date and time", StringComparison.Ordinal) ? expected : complaint;
        if (rest.Trim() is not ("" or "00:00" or "00:00:00"))
            return expected;
        day = new WrittenTime(date.AtMidnight(), null, proven, slashes);
        return null;
    }

    /// <summary>Reads a cell that holds a time of day and nothing else.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="time">The time of day.</param>
    /// <returns>False where the cell holds anything else.</returns>
    public static bool IsTimeOfDay(ReadOnlySpan<char> cell, out LocalTime time)
    {
        var rest = cell.Trim();
        return ReadTimeOfDay(ref rest, out time) is null && rest.IsEmpty;
    }

    private static string? ReadDate(
        ref ReadOnlySpan<char> rest, DayMonthOrder? order, out LocalDate date, out DayMonthOrder? proven, out bool slashes)
    {
        (date, proven, slashes) = (default, null, false);
        var first = Digits(ref rest, 4, out var firstLength);
        if (firstLength == 0 || rest.IsEmpty || rest[0] is not ('-' or '.' or '/'))
            return Unreadable(rest, firstLength);

        var separator = rest[0];
        rest = rest[1..];
        var second = Digits(ref rest, 2, out var secondLength);
        if (secondLength == 0 || rest.IsEmpty || rest[0] != separator)
            return Unreadable(rest, 0);

        rest = rest[1..];
        var third = Digits(ref rest, 4, out var thirdLength);
        if (firstLength == 4 && separator != '.')
            return thirdLength <= 2 ? MakeDate(first, second, third, out date) : Unreadable(rest, 0);
        if (firstLength > 2 || thirdLength != 4 || separator == '-')
            return "a year of four digits, as in 2026-03-10 or 10.03.2026";
        if (separator == '.')
            return MakeDate(third, second, first, out date);

        slashes = true;
        proven = first > 12 ? DayMonthOrder.DayFirst : second > 12 ? DayMonthOrder.MonthFirst : null;
        return (order ?? proven) is DayMonthOrder.MonthFirst
            ? MakeDate(third, first, second, out date)
            : MakeDate(third, second, first, out date);
    }

    private static string Unreadable(ReadOnlySpan<char> rest, int digits) => digits is 4 && rest is [>= '0' and <= '9', ..] or ['.', ..]
        ? "a date and time such as 2026-03-10 23:50; this looks like a spreadsheet's day number"
        : "a date and time such as 2026-03-10 23:50";

    private static string? MakeDate(int year, int month, int day, out LocalDate date)
    {
        date = default;
        if (year is < 1 or > 9998 || month is < 1 or > 12 || day < 1 || day > CalendarSystem.Iso.GetDaysInMonth(year, month))
            return "a day that the calendar has";
        date = new LocalDate(year, month, day);
        return null;
    }

    private static bool SkipToTimeOfDay(ref ReadOnlySpan<char> rest)
    {
        if (rest.IsEmpty || rest[0] is not ('T' or 't' or ' ' or '\u00A0' or ','))
            return false;
        rest = rest[0] is 'T' or 't' ? rest[1..] : rest[1..].TrimStart();
        return !rest.IsEmpty;
    }

    private static string? ReadTimeOfDay(ref ReadOnlySpan<char> rest, out LocalTime time)
    {
        const string expected = "a time of day between 00:00 and 23:59:59";
        time = default;
        var hour = Digits(ref rest, 2, out var length);
        if (length == 0 || rest is not [':', ..])
            return expected;
        rest = rest[1..];
        var minute = Digits(ref rest, 2, out length);
        if (length != 2)
            return expected;

        int second = 0, millisecond = 0;
        if (rest is [':', ..])
        {
            rest = rest[1..];
            second = Digits(ref rest, 2, out length);
            if (length != 2 || !TryReadFraction(ref rest, out millisecond))
                return expected;
        }

        if (hour > 23 || minute > 59 || second > 59)
            return expected;
        time = new LocalTime(hour, minute, second, millisecond);
        return null;
    }

    /// <summary>Decimals of the second, cut to milliseconds.</summary>
    private static bool TryReadFraction(ref ReadOnlySpan<char> rest, out int millisecond)
    {
        millisecond = 0;
        if (rest is not ['.' or ',', ..])
            return true;
        rest = rest[1..];
        var decimals = rest.IndexOfAnyExceptInRange('0', '9') is var end && end < 0 ? rest : rest[..end];
        rest = rest[decimals.Length..];
        for (var index = 0; index < 3; index++)
            millisecond = (millisecond * 10) + (index < decimals.Length ? decimals[index] - '0' : 0);
        return decimals.Length is >= 1 and <= 9;
    }

    private static bool TryReadOffset(ReadOnlySpan<char> rest, out Offset? offset)
    {
        offset = null;
        if (rest.IsEmpty)
            return true;
        if (rest is ['Z' or 'z'])
        {
            offset = Offset.Zero;
            return true;
        }

        if (rest[0] is not ('+' or '-' or '\u2212'))
            return false;
        var negative = rest[0] != '+';
        rest = rest[1..];
        var hours = Digits(ref rest, 2, out var length);
        var minutes = 0;
        if (length != 2)
            return false;
        if (!rest.IsEmpty)
        {
            if (rest[0] == ':')
                rest = rest[1..];
            minutes = Digits(ref rest, 2, out length);
            if (length != 2)
                return false;
        }

        if (!rest.IsEmpty || hours > 14 || minutes > 59)
            return false;
        offset = Offset.FromSeconds((negative ? -1 : 1) * ((hours * 3600) + (minutes * 60)));
        return true;
    }

    private static int Digits(ref ReadOnlySpan<char> rest, int most, out int length)
    {
        var value = 0;
        for (length = 0; length < most && length < rest.Length && char.IsAsciiDigit(rest[length]); length++)
            value = (value * 10) + (rest[length] - '0');
        rest = rest[length..];
        return value;
    }
}
