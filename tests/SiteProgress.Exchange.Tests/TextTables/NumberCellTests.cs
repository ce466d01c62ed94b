using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.Tests.TextTables;

public sealed class NumberCellTests
{
    [Theory]
    [InlineData("12", 12)]
    [InlineData(" -12.40 ", -12.4)]
    [InlineData("+0.5", 0.5)]
    [InlineData(".5", 0.5)]
    [InlineData("\u221212.4", -12.4)]
    [InlineData("1 234.5", 1234.5)]
    [InlineData("6'162'897.289", 6162897.289)]
    [InlineData("6\u2009162\u2009897", 6162897)]
    [InlineData("6,162,897.289", 6162897.289)]
    [InlineData("6,162,897", 6162897)]
    [InlineData("452,178.366", 452178.366)]
    public void With_a_decimal_point(string text, double expected) => ShouldRead(text, decimalComma: false, expected);

    [Theory]
    [InlineData("-12,40", -12.4)]
    [InlineData("452178,366", 452178.366)]
    [InlineData("3.890.605,770", 3890605.770)]
    [InlineData("1 234,50", 1234.5)]
    [InlineData("1\u00A0234,50", 1234.5)]
    [InlineData("1\u202F234,50", 1234.5)]
    [InlineData("3.890.605", 3890605)]
    [InlineData("452,178", 452.178)]
    public void With_a_decimal_comma(string text, double expected) => ShouldRead(text, decimalComma: true, expected);

    [Theory]
    [InlineData("452,178", false)]
    [InlineData("-12,400", false)]
    [InlineData("452.178", true)]
    public void A_mark_that_may_part_thousands_or_begin_decimals_is_not_guessed(string text, bool decimalComma)
        => NumberCell.Read(text, decimalComma, out _).ShouldBe(NumberState.Ambiguous);

    [Theory]
    [InlineData("46,4", false)]
    [InlineData("1234,567", false)]
    [InlineData("0,123", false)]
    [InlineData("46.4", true)]
    [InlineData("0.123", true)]
    public void A_number_with_the_other_mark_is_told_as_such(string text, bool decimalComma)
        => NumberCell.Read(text, decimalComma, out _).ShouldBe(NumberState.OtherMark);

    [Theory]
    [InlineData("NaN")]
    [InlineData("Infinity")]
    [InlineData("-\u221E")]
    [InlineData("1e5")]
    [InlineData("1e400")]
    [InlineData("0x1F")]
    [InlineData("12.4 m")]
    [InlineData("12.")]
    [InlineData("1.2.3")]
    [InlineData("--1")]
    [InlineData("-")]
    [InlineData("(12.4)")]
    [InlineData("12 34")]
    [InlineData("1 2345")]
    [InlineData("1 234'567")]
    [InlineData("\u0661\u0662")]
    [InlineData("\uFF11\uFF12")]
    [InlineData("12\012")]
    [InlineData("1234567890123456789012345678901234567890123456789")]
    public void What_is_no_plain_decimal_number_is_refused(string text)
        => NumberCell.Read(text, decimalComma: false, out _).ShouldBe(NumberState.NotANumber);

    [Theory]
    [InlineData("")]
    [InlineData("  \u00A0")]
    public void Blank_is_missing_and_not_zero(string text)
        => NumberCell.Read(text, decimalComma: false, out _).ShouldBe(NumberState.Blank);

    [Theory]
    [InlineData("46.4", MarkEvidence.Point)]
    [InlineData("46,4", MarkEvidence.Comma)]
    [InlineData("452.178", MarkEvidence.PointOrThousands)]
    [InlineData("452,178", MarkEvidence.CommaOrThousands)]
    [InlineData("3.890.605,7", MarkEvidence.Comma)]
    [InlineData("3,890,605", MarkEvidence.Point)]
    [InlineData("12", MarkEvidence.None)]
    [InlineData("A-1", MarkEvidence.None)]
    internal void What_a_cell_says_about_the_mark_of_its_file(string text, MarkEvidence expected)
        => NumberCell.Evidence(text).ShouldBe(expected);

    [Fact]
    public void A_file_whose_commas_could_all_part_thousands_is_read_with_decimal_commas_and_says_so()
    {
        var reading = Given.Planned("Pile No;Zone;X [m];Y [m]\nA-1;A;452,178;12,400\n").WithoutProblems();

        reading.Rows[0].Value.Position.First.ShouldBe(452.178);
        reading.Assumptions.ShouldContain("No number shows whether its comma begins the decimals or parts thousands; read with the decimal comma.");
    }

    [Fact]
    public void One_certain_decimal_comma_at_the_very_end_of_a_long_file_decides_for_the_whole_file()
    {
        var rows = string.Concat(Enumerable.Range(1, 20_000).Select(number => FormattableString.Invariant($"A-{number};A;452,178;12,400\n")));

        var reading = Given.Planned("Pile No;Zone;X [m];Y [m]\n" + rows + "A-0;A;1,5;2,5\n").WithoutProblems();

        reading.Rows.Count.ShouldBe(20_001);
        reading.Assumptions.ShouldNotContain(sentence => sentence.StartsWith("No number shows", StringComparison.Ordinal));
    }

    [Fact]
    public void A_file_with_both_marks_is_read_with_the_common_one_and_the_others_are_problems()
    {
        var reading = Given.Planned("Pile No;Zone;X [m];Y [m]\nA-1;A;46.4;1.5\nA-2;A;46,4;1.5\nA-3;A;46.5;2.5\n");

        var problem = reading.TheProblem();
        (problem.Line, problem.Column, problem.Found).ShouldBe((3, "X", "46,4"));
        problem.Expected.ShouldBe("a decimal point as in the rest of the file, not a comma");
        reading.Assumptions.ShouldContain(sentence => sentence.StartsWith("Numbers are written in two ways", StringComparison.Ordinal));
    }

    [Fact]
    public void A_choice_of_mark_wins_over_the_evidence()
        => Given.Planned("Pile No;Zone;X [m];Y [m]\nA-1;A;46,4;1,5\n", Given.Choices with { DecimalComma = false }).ProblemCount.ShouldBe(2);

    [Fact]
    public void Half_a_position_is_a_problem_that_names_the_empty_half()
        => Given.PlannedRows("A-1,A,1000.5,,,,").TheProblem().Sentence
            .ShouldBe("Line 2, column Y: found nothing; expected both coordinates or neither; X is filled.");

    [Fact]
    public void A_blank_position_of_a_planned_pile_is_a_problem_and_not_zero()
        => Given.PlannedRows("A-1,A,,,,,").TheProblem().Expected.ShouldBe("both coordinates of the design position");

    [Theory]
    [InlineData("Pile No,Zone,X [yd],Y [yd]", "X [yd]")]
    [InlineData("Pile No,Zone,X [m],Y [m],Top level [fathoms]", "Top level [fathoms]")]
    public void A_unit_that_is_not_known_refuses_the_file(string header, string found)
    {
        var reading = Given.Planned(header + "\nA-1,A,1,2\n");

        reading.IsRefused.ShouldBeTrue();
        reading.Problems[0].Found.ShouldBe(found);
        reading.Problems[0].Expected.ShouldBe("the unit [m], [cm], [mm] or [ft] in the header");
    }

    private static void ShouldRead(string text, bool decimalComma, double expected)
    {
        NumberCell.Read(text, decimalComma, out var value).ShouldBe(NumberState.Good);
        value.ShouldBe(expected);
    }
}
