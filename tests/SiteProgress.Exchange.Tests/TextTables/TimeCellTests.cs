using NodaTime;

namespace SiteProgress.Exchange.Tests.TextTables;

/// <summary>
/// Times are read through whole files, so that time zone, evidence and messages are tested together. Clock changes of
/// Europe/Copenhagen after EU directive 2000/84/EC: last Sundays of March and October, 01:00 UTC.
/// </summary>
public sealed class TimeCellTests
{
    private static readonly Instant MarchMorning = Instant.FromUtc(2026, 3, 10, 6, 52);

    [Theory]
    [InlineData("2026-03-10T07:52:00")]
    [InlineData("2026-03-10T07:52")]
    [InlineData("2026-03-10 07:52")]
    [InlineData("2026-03-10  7:52:00")]
    [InlineData("2026/03/10 07:52")]
    [InlineData("10.03.2026 07:52")]
    [InlineData("10.3.2026 07:52:00")]
    [InlineData("10.03.2026, 07:52")]
    [InlineData("2026-03-10T06:52:00Z")]
    [InlineData("2026-03-10T07:52:00+01:00")]
    [InlineData("2026-03-10 07:52 +01:00")]
    [InlineData("2026-03-10T15:52+0900")]
    [InlineData("2026-03-10T01:52:00.000-05")]
    public void The_same_moment_in_many_ways(string text) => Start(text).ShouldBe(MarchMorning);

    [Theory]
    [InlineData("2026-03-10T07:52:01.5", 500)]
    [InlineData("2026-03-10T07:52:01,25", 250)]
    [InlineData("2026-03-10 07:52:01.123456", 123)]
    public void Decimals_of_a_second_are_kept_to_the_millisecond(string text, int milliseconds)
        => Start(text).ShouldBe(MarchMorning + Duration.FromSeconds(1) + Duration.FromMilliseconds(milliseconds));

    [Fact]
    public void A_night_over_midnight_keeps_its_offset()
    {
        // Trade case: a pile begun before midnight at UTC+9 and ended after it.
        var value = Given.BuiltAt("2026-03-10T23:50+09:00", "2026-03-11T00:35+09:00").WithoutProblems().Rows[0].Value;

        (value.Start, value.End).ShouldBe((Instant.FromUtc(2026, 3, 10, 14, 50), Instant.FromUtc(2026, 3, 10, 15, 35)));
    }

    [Theory]
    [InlineData("2026-03-10", "a date and a time of day, such as 2026-03-10 23:50")]
    [InlineData("07:52", "a date and time such as 2026-03-10 23:50, or a column \u201CDate\u201D beside times of day")]
    [InlineData("46091.3278", "a date and time such as 2026-03-10 23:50; this looks like a spreadsheet's day number")]
    [InlineData("10.03.26 07:52", "a year of four digits, as in 2026-03-10 or 10.03.2026")]
    [InlineData("2026-03-10 07:52 PM", "a time on the 24-hour clock, such as 2026-03-10 23:50")]
    [InlineData("2026-03-10 24:00", "a time of day between 00:00 and 23:59:59")]
    [InlineData("2026-03-10 07:60", "a time of day between 00:00 and 23:59:59")]
    [InlineData("2026-02-29 07:52", "a day that the calendar has")]
    [InlineData("2026-13-01 07:52", "a day that the calendar has")]
    [InlineData("yesterday", "a date and time such as 2026-03-10 23:50")]
    [InlineData("2026-03-10 07:52 Copenhagen", "a time that ends after the seconds or with an offset such as Z or +09:00")]
    [InlineData("2026-03-10 07:52+25:00", "a time that ends after the seconds or with an offset such as Z or +09:00")]
    [InlineData("1989-12-31 23:59Z", "a time after 1990")]
    public void What_is_no_time_of_work_is_told(string text, string expected)
    {
        var problem = Given.BuiltAt(text, "").TheProblem();

        (problem.Line, problem.Column, problem.Found).ShouldBe((2, "Start", text));
        problem.Expected.ShouldBe(expected);
    }

    [Fact]
    public void A_time_later_than_a_day_after_reading_is_a_problem()
    {
        Given.BuiltAt("2026-06-02T12:00Z", "").WithoutProblems();
        Given.BuiltAt("2026-06-02T12:01Z", "").TheProblem().Expected
            .ShouldBe("a time not later than a day after the file was read (2026-06-02 12:00 UTC)");
    }

    [Fact]
    public void A_time_that_summer_time_skipped_is_a_problem()
        => Given.BuiltAt("2026-03-29 02:30", "").TheProblem().Expected
            .ShouldBe("a time that exists in Europe/Copenhagen: the clocks there went from 2026-03-29 02:00 to 2026-03-29 03:00");

    [Fact]
    public void A_time_that_came_twice_asks_for_an_offset_and_says_both()
        => Given.BuiltAt("2025-10-26 02:30", "").TheProblem().Expected
            .ShouldBe("an offset, because the clocks in Europe/Copenhagen were put back and the time came twice: write "
                + "2025-10-26 02:30:00+02:00 or 2025-10-26 02:30:00+01:00");

    [Theory]
    [InlineData("2025-10-26 02:30+02:00", 0)]
    [InlineData("2025-10-26 02:30+01:00", 1)]
    public void With_an_offset_a_time_that_came_twice_is_one_moment(string text, int hour)
        => Start(text).ShouldBe(Instant.FromUtc(2025, 10, 26, hour, 30));

    [Fact]
    public void Dates_with_slashes_that_prove_nothing_ask_for_a_choice()
    {
        var reading = Given.BuiltAt("03/04/2026 07:00", "03/04/2026 08:00");

        reading.IsRefused.ShouldBeTrue();
        reading.TheProblem().Expected.ShouldBe("a choice of day first or month first: no date with slashes proves its order");
    }

    [Theory]
    [InlineData(DayMonthOrder.DayFirst, 4, 3)]
    [InlineData(DayMonthOrder.MonthFirst, 3, 4)]
    public void A_choice_decides_dates_with_slashes(DayMonthOrder order, int month, int day)
        => Given.BuiltAt("03/04/2026 12:00Z", "", Given.Choices with { DayMonthOrder = order }).WithoutProblems()
            .Rows[0].Value.Start.ShouldBe(Instant.FromUtc(2026, month, day, 12, 0));

    [Fact]
    public void One_date_at_the_end_of_a_long_file_proves_the_order_for_all()
    {
        var rows = string.Concat(Enumerable.Range(1, 10_000).Select(
            number => FormattableString.Invariant($"R{number};A-0001;Tern;1;03/04/2026 12:00Z;;1,5;2,5;-28,1;complete\n")));

        var reading = Given.Built($"{Given.InstallationHeader}\n{rows}R0;A-0001;Tern;1;13/04/2026 12:00Z;;1,5;2,5;-28,1;complete\n").WithoutProblems();

        reading.Rows[0].Value.Start.ShouldBe(Instant.FromUtc(2026, 4, 3, 12, 0));
        reading.Rows.Count.ShouldBe(10_001);
    }

    [Fact]
    public void Dates_that_prove_both_orders_refuse_the_file_and_name_the_lines()
    {
        var reading = Given.BuiltAt("13/04/2026 07:00", "04/25/2026 08:00");

        reading.IsRefused.ShouldBeTrue();
        reading.TheProblem().Expected.ShouldBe(
            "one order of day and month in dates with slashes; line 2 has the day first, line 2 the month");
    }

    [Fact]
    public void Times_out_of_order_are_kept_and_warned_of()
    {
        var reading = Given.BuiltAt("2026-03-10 08:00", "2026-03-10 07:00").WithoutProblems();

        reading.Rows.Count.ShouldBe(1);
        reading.Warnings.ShouldHaveSingleItem().Expected.ShouldBe("start, end of penetration and end in this order");
    }

    private static Instant? Start(string text) => Given.BuiltAt(text, "").WithoutProblems().Rows[0].Value.Start;
}
