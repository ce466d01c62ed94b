using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.Diaries;
using SiteProgress.Exchange.ProgressSchedules;

namespace SiteProgress.Exchange.Tests;

public sealed class DiaryTests
{
    private const string Header = "Working day,Barge,Activity,Cause,Borne by,Hours\n";

    [Fact]
    public void A_row_says_day_barge_activity_cause_bearer_and_hours()
        => Diary("28.03.2026,tern,standby,weather,shared,6.55\n").WithoutProblems().Rows.Single().Value
            .ShouldBe(new DiaryEntry(new LocalDate(2026, 3, 28), "Tern", "standby", "weather", "shared", 6.55m));

    [Theory]
    [InlineData("2026-02-30,Tern,standby,,,1\n", "a date such as 2026-03-10")]
    [InlineData("2026-03-28,Heron,standby,,,1\n", "a barge of this site: Tern, Plover")]
    [InlineData("2026-03-28,Tern,,,,1\n", "a value")]
    [InlineData("2026-03-28,Tern,standby,,,-1\n", "hours between 0 and 25")]
    [InlineData("2026-03-28,Tern,standby,,,26\n", "hours between 0 and 25")]
    [InlineData("2026-03-28,Tern,standby,,,0\n", "hours above zero")]
    [InlineData("2026-03-28,Tern,standby,,,\n", "a value")]
    public void A_row_that_cannot_be_meant_is_told_by_its_line(string row, string expected)
    {
        ImportProblem problem = Diary(row).TheProblem();

        problem.Line.ShouldBe(2);
        problem.Expected.ShouldStartWith(expected);
    }

    [Fact]
    public void A_schedule_without_a_zone_is_about_the_whole_site()
        => Schedule("2026-03-28,,120\n2026-03-28,B,20\n").WithoutProblems().Rows.Select(row => row.Value)
            .ShouldBe([new PlannedProgress(new LocalDate(2026, 3, 28), null, 120), new PlannedProgress(new LocalDate(2026, 3, 28), "B", 20)]);

    [Fact]
    public void A_cumulative_number_that_falls_is_told()
    {
        ImportProblem problem = Schedule("2026-03-28,B,20\n2026-04-04,B,19\n").TheProblem();

        problem.Line.ShouldBe(3);
        problem.Expected.ShouldBe("at least the 20 of 2026-03-28: the numbers are cumulative");
    }

    private static TableReading<DiaryEntry> Diary(string rows) => DiaryReader.Read(Given.Bytes(Header + rows), Given.Choices, TestContext.Current.CancellationToken);

    private static TableReading<PlannedProgress> Schedule(string rows)
        => PlannedProgressReader.Read(Given.Bytes("Day,Zone,Planned piles cumulative\n" + rows), Given.Choices, TestContext.Current.CancellationToken);
}
