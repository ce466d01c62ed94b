using System.Text;
using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.Installations;
using SiteProgress.Exchange.PileSchedules;

namespace SiteProgress.Exchange.Tests;

/// <summary>The twenty files that nobody should send and somebody will: each a clear message with its line, or a right reading.</summary>
public sealed class BadFileTests
{
    private static readonly string[] FiveNumbers = ["A-9001", "A-9002", "A-9003", "A-9004", "A-9005"];

    [Fact]
    public void B01_An_empty_file_is_said_to_be_empty()
        => TheRefusal(Planned("bad/01-empty.csv")).Sentence.ShouldBe("File: expected a table; the file is empty.");

    [Fact]
    public void B02_A_binary_file_is_said_to_be_no_text()
        => TheRefusal(Planned("bad/02-binary.csv")).Sentence
            .ShouldBe("File: expected a text table (CSV); this is not text at all, since it holds bytes that no text has.");

    [Fact]
    public void B03_A_wrong_delimiter_shows_the_first_line_and_names_the_delimiters()
    {
        var refusal = TheRefusal(Planned("bad/03-wrong-delimiter.csv"));

        refusal.Found.ShouldBe("Pile No|Zone|X [m]|Y [m]|Diameter [m]|Top level [m]|Tip level [m]|Remark");
        refusal.Expected.ShouldEndWith("parted by comma, semicolon or tab");
    }

    [Fact]
    public void B03_A_wrong_choice_of_delimiter_names_the_one_that_would_do()
    {
        var reading = Given.Planned(Given.PlannedHeader + "\nA-1,A,1,2,,,\n", Given.Choices with { Delimiter = ';' });

        TheRefusal(reading).Expected.ShouldBe("the delimiter semicolon as chosen; the file has a header with comma on line 1");
    }

    [Fact]
    public void B04_A_missing_column_is_named_with_the_line_of_the_header()
    {
        var refusal = TheRefusal(Planned("bad/04-missing-column.csv"));

        (refusal.Line, refusal.Column).ShouldBe((1, "Zone"));
        refusal.Expected.ShouldBe("a column \u201CZone\u201D; the header on line 1 has none");
    }

    [Fact]
    public void B05_Decimal_commas_between_commas_are_told_line_by_line()
    {
        var reading = Planned("bad/05-decimal-commas-between-commas.csv");

        reading.Rows.ShouldBeEmpty();
        reading.Problems.Select(problem => problem.Line).ShouldBe([2, 3, 4, 5, 6]);
        reading.Problems[0].Expected.ShouldBe(
            "8 cells as in the header; this line has 13, as where decimal commas stand in a file with commas as delimiter");
    }

    [Theory]
    [InlineData("bad/06-semicolons-and-decimal-commas.csv", "semicolon as delimiter, decimal comma")]
    [InlineData("bad/07-byte-order-mark.csv", "UTF-8 with byte order mark")]
    [InlineData("bad/08-utf-16.csv", "UTF-16, little end first")]
    public void B06_to_08_Another_look_is_read_right_and_said(string file, string said)
    {
        var reading = Planned(file).WithoutProblems();

        reading.Rows.Select(row => row.Value.Number).ShouldBe(FiveNumbers);
        reading.Rows[4].Value.Position.ShouldBe(new RecordedPosition(Frame.SiteGrid, 1010.5, 2000));
        reading.Rows.ShouldAllBe(row => row.Value.TipLevelMetres == -28.0);
        reading.Assumptions[0].ShouldContain(said);
    }

    [Fact]
    public void B08_Letters_outside_ASCII_survive_UTF_16()
        => Planned("bad/08-utf-16.csv").Rows[0].Value.Remark!.Text.ShouldBe("K\u00F8benhavn");

    [Fact]
    public void B09_Swapped_axes_are_read_as_written_and_suspected()
    {
        var reading = Planned("bad/09-swapped-axes.csv").WithoutProblems();

        var suspicion = AxisSuspicion.Judge(
            [.. reading.Rows.Select(row => row.Value.Position)],
            new Dictionary<Frame, FrameBox> { [Frame.ProjectedCrs] = new(392_500, 6_162_500, 393_200, 6_163_000) }).ShouldHaveSingleItem();

        suspicion.Mistake.ShouldBe(AxisMistake.Swapped);
        suspicion.Text.ShouldContain("5 of 5 positions lie outside the site");
        suspicion.Text.ShouldContain("5 of these lie on the site when first and second coordinate are swapped");
    }

    [Fact]
    public void B10_Text_in_a_number_is_told_and_the_other_rows_are_read()
    {
        var reading = Planned("bad/10-text-in-a-number.csv");

        reading.Problems.Select(problem => (problem.Line, problem.Column, problem.Found))
            .ShouldBe([(3, "Top level", "-12.50 m"), (4, "X", "about 1006")]);
        reading.Rows.Select(row => row.Line).ShouldBe([2, 5]);
    }

    [Fact]
    public void B11_Ten_digit_numbers_are_refused_as_likely_millimetres()
    {
        var reading = Planned("bad/11-ten-digit-numbers.csv");

        reading.Problems.Select(problem => (problem.Line, problem.Found)).ShouldBe([(3, "392796601"), (3, "6162897289")]);
        reading.Problems.ShouldAllBe(problem => problem.Expected.EndsWith("this looks like millimetres"));
        reading.Rows.ShouldHaveSingleItem().Line.ShouldBe(2);
    }

    [Fact]
    public void B12_A_duplicate_number_names_the_earlier_line()
    {
        var problem = Planned("bad/12-duplicate-numbers.csv").TheProblem();

        problem.Sentence.ShouldBe("Line 4, column Pile No: found \u201CA-9001\u201D; expected each pile number once; line 2 has it already.");
    }

    [Fact]
    public void B13_An_unknown_zone_names_the_known_ones()
        => Planned("bad/13-unknown-zone.csv").TheProblem().Sentence
            .ShouldBe("Line 3, column Zone: found \u201CQ\u201D; expected a zone of this site: A, B, C.");

    [Fact]
    public void B14_Dates_in_three_styles_are_read_right_because_one_date_proves_the_month_first()
    {
        var reading = Built("bad/14-dates-in-three-styles.csv").WithoutProblems();

        // Copenhagen was one hour ahead of UTC on all these days (EU directive 2000/84/EC: summer time from 29 March 2026).
        reading.Rows.Select(row => row.Value.Start).ShouldBe(
        [
            Instant.FromUtc(2026, 3, 10, 6, 52), Instant.FromUtc(2026, 3, 10, 8, 0),
            Instant.FromUtc(2026, 3, 10, 9, 0), Instant.FromUtc(2026, 3, 25, 9, 0),
        ]);
        reading.Assumptions.ShouldContain("Dates with slashes have the month first, as some of them prove.");
    }

    [Fact]
    public void B15_The_year_1900_is_refused()
    {
        var reading = Built("bad/15-year-1900.csv");

        reading.Problems.Select(problem => (problem.Line, problem.Column)).ShouldBe([(2, "Start"), (2, "End")]);
        reading.Problems.ShouldAllBe(problem => problem.Expected == "a time after 1990");
        reading.Rows.ShouldHaveSingleItem().Line.ShouldBe(3);
    }

    [Fact]
    public void B16_What_a_computer_calls_a_number_and_a_surveyor_does_not_is_refused()
    {
        var reading = Planned("bad/16-nan.csv");

        reading.Problems.Select(problem => (problem.Line, problem.Found))
            .ShouldBe([(2, "NaN"), (3, "-Infinity"), (4, "1e400"), (5, "0x3F0")]);
        reading.Rows.ShouldHaveSingleItem().Line.ShouldBe(6);
    }

    [Fact]
    public void B17_200_megabytes_in_one_line_cost_that_line_and_little_memory()
    {
        var before = Encoding.UTF8.GetBytes(Given.PlannedHeader + "\nA-1,A,1,2,,,\n");
        var after = Encoding.UTF8.GetBytes("\nA-2,A,3,4,,,\n");
        using var stream = new GeneratedStream(before, (byte)'x', 200_000_000, after);
        var allocated = GC.GetAllocatedBytesForCurrentThread();

        var reading = PlannedPileReader.Read(stream, Given.Choices, TestContext.Current.CancellationToken);

        allocated = GC.GetAllocatedBytesForCurrentThread() - allocated;
        allocated.ShouldBeLessThan(4_000_000);
        reading.TheProblem().Sentence.ShouldStartWith("Line 3: found \u201Cxxxxx");
        reading.TheProblem().Expected.ShouldBe("a line of at most 65536 characters");
        reading.Rows.Select(row => (row.Line, row.Value.Number)).ShouldBe([(2, "A-1"), (4, "A-2")]);
    }

    [Fact]
    public void B17_200_megabytes_of_rows_are_refused_whole_and_not_read_to_their_end()
    {
        var row = Encoding.UTF8.GetBytes("R1;A-0001;Tern;1;2026-03-10 07:52;2026-03-10 08:20;1002.100;2000.000;-28.10;complete\n");
        using var stream = new GeneratedStream(Encoding.UTF8.GetBytes(Given.InstallationHeader + "\n"), row, 200_000_000);

        var reading = InstallationReader.Read(stream, Given.Choices with { MostRows = 50_000 }, TestContext.Current.CancellationToken);

        reading.Rows.ShouldBeEmpty();
        reading.IsRefused.ShouldBeTrue();
        reading.Problems[0].Sentence.ShouldBe("Line 50002: expected at most 50000 rows in one file; bring it in in parts.");
        stream.BytesGiven.ShouldBeLessThan(10_000_000);
    }

    [Fact]
    public void B17_A_row_costs_what_it_says_and_nothing_for_columns_that_are_not_used()
    {
        const int rows = 10_000;
        AllocatedFor(rows); // The first reading also makes what all share.

        // What twice the rows take beyond the rows: 10 MB more of text, of which a row keeps its number and what is read of it.
        ((AllocatedFor(2 * rows) - AllocatedFor(rows)) / rows).ShouldBeLessThan(700);

        static long AllocatedFor(int rows)
        {
            var text = new StringBuilder("Pile No,Zone,X [m],Y [m],Operator's diary\n");
            for (var row = 0; row < rows; row++)
                text.Append("A-").Append(row).Append(",A,1,2,").Append('d', 1_000).Append(row).Append('\n');
            using var stream = Given.Bytes(text.ToString());
            var before = GC.GetAllocatedBytesForCurrentThread();
            var reading = PlannedPileReader.Read(stream, Given.Choices, TestContext.Current.CancellationToken);
            var allocated = GC.GetAllocatedBytesForCurrentThread() - before;
            reading.WithoutProblems().Rows.Count.ShouldBe(rows);
            return allocated;
        }
    }

    [Fact]
    public void B18_A_formula_in_a_pile_number_is_refused()
    {
        var reading = Planned("bad/18-formula-in-a-pile-number.csv");

        reading.Problems.Select(problem => (problem.Line, problem.Expected)).ShouldBe(
            [(2, "a pile number; this begins like a spreadsheet formula"), (3, "a pile number; this begins like a spreadsheet formula")]);
        reading.Rows.ShouldHaveSingleItem().Value.Number.ShouldBe("A-9003");
    }

    [Fact]
    public void B19_HTML_in_a_pile_number_is_refused()
        => Planned("bad/19-html-in-a-pile-number.csv").TheProblem().Expected
            .ShouldBe("a pile number of the characters A-Z0-9- that this site allows");

    [Fact]
    public void B20_A_line_cut_in_half_is_said_to_be_cut()
    {
        var reading = Planned("bad/20-line-cut-in-half.csv");

        reading.TheProblem().Sentence.ShouldBe(
            "Line 6: found \u201CA-9005\u201D; expected 8 cells as in the header; this line has 4; the file ends in this line and seems to be cut off.");
        reading.Rows.Count.ShouldBe(4);
    }

    private static TableReading<AsPlanned> Planned(string file)
    {
        using var stream = SampleFile.Open(file);
        return PlannedPileReader.Read(stream, Given.Choices, TestContext.Current.CancellationToken);
    }

    private static TableReading<Installation> Built(string file)
    {
        using var stream = SampleFile.Open(file);
        return InstallationReader.Read(stream, Given.Choices, TestContext.Current.CancellationToken);
    }

    private static ImportProblem TheRefusal<T>(TableReading<T> reading)
    {
        reading.Rows.ShouldBeEmpty();
        reading.IsRefused.ShouldBeTrue();
        return reading.TheProblem();
    }
}
