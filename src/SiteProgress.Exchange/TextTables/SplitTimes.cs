using System.Globalization;
using NodaTime;

namespace SiteProgress.Exchange.TextTables;

/// <summary>Joins times of day with the date that stands beside them in a column of its own.</summary>
/// <param name="choices">What a person said of that date, and when the working day of the site begins.</param>
/// <param name="order">Order of day and month in dates with slashes, where it is known.</param>
internal sealed class SplitTimes(ReadingChoices choices, DayMonthOrder? order)
{
    private LocalDateTime? _before;
    private bool _seen;
    private int _pastMidnight;
    private int _beforeWorkingDay;

    /// <summary>Begins the next row.</summary>
    public void Begin() => _before = null;

    /// <summary>The date and time that a date and a time of day make together.</summary>
    /// <param name="day">Cell of the date.</param>
    /// <param name="time">The time of day.</param>
    /// <param name="written">Date and time.</param>
    /// <returns>Null where the date could be read, otherwise what was expected.</returns>
    public string? Join(ReadOnlySpan<char> day, LocalTime time, out WrittenTime written)
    {
        written = default;
        var expected = TimeCell.ReadDay(day, order, out var date);
        if (expected is null && date.HasSlashes && order is null)
            expected = "a choice of day first or month first for dates with slashes, or a date such as 2026-03-10";
        if (expected is not null)
            return $"a date beside the time of day: {expected}";

        _seen = true;
        var local = date.Local.Date + time;
        if (time < choices.WorkingDayBegins)
        {
            _beforeWorkingDay++;
            if (choices.DateIsWorkingDay)
                local = local.PlusDays(1);
        }

        if (local < _before)
        {
            local = local.PlusDays(1);
            _pastMidnight++;
        }

        _before = local;
        written = new WrittenTime(local, null, null, HasSlashes: false);
        return null;
    }

    /// <summary>How dates in a column of their own were taken, as sentences.</summary>
    public IEnumerable<string> Assumptions()
    {
        if (!_seen)
            yield break;
        yield return choices.DateIsWorkingDay
            ? $"Dates stand in a column of their own and are taken as working days from {Begins}, as chosen."
            : "Dates stand in a column of their own and are taken as the calendar day of the first time of their row.";
        if (_pastMidnight > 0)
            yield return $"{Times(_pastMidnight, "is", "are")} earlier on the clock than the one before in the same row and so taken as after midnight.";
    }

    /// <summary>What the dates leave open; null where every time lies after the beginning of the working day.</summary>
    public OpenQuestion? Question() => _beforeWorkingDay == 0 || choices.DateIsWorkingDay ? null : new OpenQuestion(QuestionKind.WorkingDay, string.Create(
        CultureInfo.InvariantCulture,
        $"{Times(_beforeWorkingDay, "lies", "lie")} before {Begins}, when the working day begins. Dates beside times of day are taken as calendar days; say so where they are working days."));

    private static string Times(int count, string one, string many) => string.Create(CultureInfo.InvariantCulture, $"{count} {(count == 1 ? "time" : "times")} {(count == 1 ? one : many)}");

    private string Begins => choices.WorkingDayBegins.ToString("HH:mm", CultureInfo.InvariantCulture);
}
