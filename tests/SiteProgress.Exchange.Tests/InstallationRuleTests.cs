using SiteProgress.Core.Piles;

namespace SiteProgress.Exchange.Tests;

public sealed class InstallationRuleTests
{
    private const string Good = "R1;A-0001;Tern;1;2026-03-10 07:00;2026-03-10 08:00;1,5;2,5;-28,1;complete";

    [Fact]
    public void The_same_record_twice_with_the_same_content_is_counted_once_and_warned_of()
    {
        var reading = Given.BuiltRows(Good, Good).WithoutProblems();

        reading.Rows.ShouldHaveSingleItem().Line.ShouldBe(2);
        reading.RowsRead.ShouldBe(2);
        reading.LinesLeftOut.ShouldBe([3]);
        var warning = reading.Warnings.ShouldHaveSingleItem();
        (warning.Line, warning.Found).ShouldBe((3, "R1"));
        warning.Expected.ShouldBe("each record once; line 2 says the same, and it is counted once");
    }

    [Fact]
    public void The_same_record_with_other_content_is_a_problem_on_the_later_line()
        => Given.BuiltRows(Good, Good.Replace("-28,1", "-28,2", StringComparison.Ordinal)).TheProblem().Sentence
            .ShouldBe("Line 3, column Record: found \u201CR1\u201D; expected each record once; line 2 has the same record with other content.");

    [Fact]
    public void An_unknown_barge_names_the_known_ones()
        => Given.BuiltRows(Good.Replace("Tern", "Heron", StringComparison.Ordinal)).TheProblem().Sentence
            .ShouldBe("Line 2, column Barge: found \u201CHeron\u201D; expected a barge of this site: Tern, Plover.");

    [Fact]
    public void An_unknown_casing_names_those_of_its_barge()
        => Given.BuiltRows(Good.Replace("Tern;1", "Plover;2", StringComparison.Ordinal)).TheProblem().Sentence
            .ShouldBe("Line 2, column Casing: found \u201C2\u201D; expected a casing of Plover: 1.");

    [Theory]
    [InlineData("1,0")]
    [InlineData("0")]
    [InlineData("-1")]
    [InlineData("one")]
    public void A_casing_is_a_whole_number(string casing)
        => Given.BuiltRows(Good.Replace("Tern;1", "Tern;" + casing, StringComparison.Ordinal)).TheProblem().Column.ShouldBe("Casing");

    [Fact]
    public void An_unknown_outcome_names_the_known_ones()
        => Given.BuiltRows(Good.Replace("complete", "done", StringComparison.Ordinal)).TheProblem().Expected
            .ShouldBe("one of complete, refused, interrupted, abandoned, offset by instruction, trial");

    [Fact]
    public void Number_barge_and_outcome_must_be_there()
        => Given.BuiltRows("R1;;;1;;;;;;").Problems.Select(problem => problem.Column).ShouldBe(["Pile No", "Barge", "Outcome"]);

    [Fact]
    public void Every_bad_cell_of_a_row_is_told_at_once()
        => Given.BuiltRows("R1;a-1;Heron;9;soon;2026-03-10 08:00;x;2,5;deep;done").Problems.Select(problem => problem.Column).ShouldBe(
            ["Pile No", "Barge", "Outcome", "Start", "X touch-down", "Tip level"]);

    [Fact]
    public void A_heading_without_its_north_is_kept_and_warned_of()
    {
        var reading = Given.Built("Pile No;Barge;Heading [deg];Outcome\nA-1;Tern;33,2;complete\n").WithoutProblems();

        (reading.Rows[0].Value.HeadingDegrees, reading.Rows[0].Value.HeadingNorth).ShouldBe((33.2, null));
        reading.WarningCount.ShouldBe(1);
    }

    [Fact]
    public void A_depth_in_the_column_of_levels_is_warned_of()
        => Given.Built("Pile No;Barge;Top level [m];Tip level [m];Outcome\nA-1;Tern;-12,4;28,1;complete\n").WithoutProblems()
            .Warnings.ShouldHaveSingleItem().Expected.ShouldBe("a tip level below the top level; is it a depth?");

    [Fact]
    public void A_frame_that_a_person_chose_is_taken_and_said()
    {
        var reading = Given.Built(Given.InstallationHeader + "\n" + Good + "\n", Given.Choices with { Frame = Frame.ProjectedCrs }).WithoutProblems();

        reading.Rows[0].Value.TouchDown!.Value.Frame.ShouldBe(Frame.ProjectedCrs);
        reading.Assumptions.ShouldContain(
            "The position touch-down is taken as the projected CRS of the site, as chosen; the header says X touch-down and Y touch-down.");
    }

    [Fact]
    public void A_frame_that_no_column_can_hold_is_refused()
        => Given.Built(Given.InstallationHeader + "\n" + Good + "\n", Given.Choices with { Frame = Frame.Geographic }).IsRefused.ShouldBeTrue();

    [Fact]
    public void A_file_of_another_kind_is_told_as_such()
        => Given.Planned(Given.InstallationHeader + "\n" + Good + "\n").Problems[0].Expected.ShouldEndWith("this looks like a file of installations");

    [Fact]
    public void A_title_that_stands_twice_refuses_the_file()
        => Given.Planned("Pile No,Zone,X [m],X [m],Y [m]\nA-1,A,1,2,3\n").TheProblem().Expected
            .ShouldBe("each column once; this title stands twice in the header");

    [Fact]
    public void Blank_lines_and_comments_are_no_rows_and_are_told()
    {
        var reading = Given.Built($"{Given.InstallationHeader}\n\n;;;;;;;;;\n{Good}\n# end of file\n").WithoutProblems();

        reading.RowsRead.ShouldBe(1);
        reading.Assumptions.ShouldContain("2 blank lines passed over.");
        reading.Warnings.ShouldHaveSingleItem().Sentence.ShouldBe(
            "Line 5: found \u201C# end of file\u201D; expected a row; a line that begins with # is not read.");
    }

    [Fact]
    public void A_last_number_without_line_end_is_warned_of_because_it_may_be_cut()
        => Given.Planned(Given.PlannedHeader + "\nA-1,A,1,2,2.0,-12.5,-28").WithoutProblems()
            .Warnings.ShouldHaveSingleItem().Expected.ShouldBe("a line end; if the file was cut off, this last cell may be incomplete");

    [Fact]
    public void All_problems_are_counted_and_the_first_are_kept()
    {
        var reading = Given.Planned(
            Given.PlannedHeader + "\n" + string.Concat(Enumerable.Repeat("A-1,Q,1,2,,,\n", 500)), Given.Choices with { MostProblems = 10 });

        // Each row has an unknown zone, and all but the first repeat the number.
        (reading.ProblemCount, reading.Problems.Count, reading.RowsRead).ShouldBe((999, 10, 500));
        reading.LinesLeftOut.ShouldBe(Enumerable.Range(2, 500).Select(line => (long)line));
    }
}
