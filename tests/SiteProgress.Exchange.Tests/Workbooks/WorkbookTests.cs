using System.Text;
using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Exchange.Installations;
using SiteProgress.Exchange.PileSchedules;
using static SiteProgress.Exchange.Tests.Workbooks.XlsxText;

namespace SiteProgress.Exchange.Tests.Workbooks;

/// <summary>Workbooks as office programs write them. Rules are those of ECMA-376 part 1; the section stands beside each.</summary>
public sealed class WorkbookTests
{
    private static readonly string[] PlannedTitles = ["Pile No", "Zone", "X [m]", "Y [m]", "Tip level [m]"];

    // Style 1 a date and time of the workbook's own, 2 a built-in date (14), 3 four digits, 4 a word in quotation marks that has date letters.
    private const string Styles =
        "<numFmts><numFmt numFmtId=\"164\" formatCode=\"dd/mm/yyyy\\ hh:mm\"/><numFmt numFmtId=\"165\" formatCode=\"0000\"/><numFmt numFmtId=\"166\" formatCode=\"0.0&quot; days&quot;\"/></numFmts>"
        + "<cellStyleXfs><xf numFmtId=\"14\"/></cellStyleXfs><cellXfs><xf numFmtId=\"0\"/><xf numFmtId=\"164\"/><xf numFmtId=\"14\"/><xf numFmtId=\"165\"/><xf numFmtId=\"166\"/></cellXfs>";

    [Fact]
    public void Title_rows_above_the_header_are_passed_over_and_rows_keep_their_numbers()
    {
        var reading = Planned(Of(Row(1, "Pile schedule, revision 3") + Row(3, "issued for construction", null, "zone A") + Row(5, PlannedTitles)
            + Row(6, "A-1", "A", "1000.5", "2000.25", "-28") + Row(8, "A-2", "A", "1002.1", "2000", "-28.1"))).WithoutProblems();

        reading.Rows.Select(row => (row.Line, row.Value.Number, row.Value.Position.First, row.Value.TipLevelMetres)).ShouldBe(
            [(6L, "A-1", 1000.5, -28.0), (8, "A-2", 1002.1, -28.1)]);
        reading.Assumptions[0].ShouldBe("Read as a workbook (xlsx), sheet \u201CSheet1\u201D; header on line 5.");
        reading.Assumptions.ShouldContain("Lines above the header, not read: Pile schedule, revision 3 | issued for construction zone A");
    }

    [Fact]
    public void The_sheet_with_the_header_is_found_wherever_it_stands_and_a_chosen_one_is_taken()
    {
        var book = new XlsxText().With("Notes", Row(1, "read me")).With("Piles", Row(1, PlannedTitles) + Row(2, "A-1", "A", "1", "2"))
            .With("Old", Row(1, PlannedTitles) + Row(2, "A-9", "A", "1", "2")).With("Kept", Row(1, PlannedTitles) + Row(2, "A-7", "A", "1", "2"), "hidden");

        var found = Planned(book).WithoutProblems();
        found.Rows.Single().Value.Number.ShouldBe("A-1");
        found.Questions.ShouldContain(question => question.Kind == QuestionKind.Table && question.Text.Contains("\u201COld\u201D", StringComparison.Ordinal));
        found.Assumptions.ShouldContain("Sheets not read: \u201CNotes\u201D, \u201COld\u201D, \u201CKept\u201D (hidden).");

        Planned(book, Given.Choices with { Table = "Old" }).WithoutProblems().Rows.Single().Value.Number.ShouldBe("A-9");
        Planned(book, Given.Choices with { Table = "Gone" }).TheProblem().Expected.ShouldBe("a workbook with the sheet \u201CGone\u201D");
    }

    [Fact]
    public void A_title_merged_over_two_columns_names_both()
    {
        var rows = Row(1, "Record", "Pile No", "Barge", "Touch-down", null, "End", null, "Outcome") + Row(2, null, null, null, "X [m]", "Y [m]", "X [m]", "Y [m]", null)
            + Row(3, "R1", "A-1", "Tern", "1.5", "2.5", "1.6", "2.6", "complete");

        var built = Built(Of(rows)).WithoutProblems().Rows.Single().Value;

        built.TouchDown.ShouldBe(new RecordedPosition(Frame.SiteGrid, 1.5, 2.5));
        built.AtEndOfPenetration.ShouldBe(new RecordedPosition(Frame.SiteGrid, 1.6, 2.6));
    }

    [Theory]
    // 18.17.4.1: serial 1 is 1900-01-01, 60 a day that never was, 61 is 1900-03-01; 44927 is 2023-01-01 (by the standard's count of days).
    [InlineData("1", "46091.3277777778", "2026-03-10T07:52:00Z")]
    [InlineData("1", "46091.99930555556", "2026-03-10T23:59:00Z")]
    [InlineData("1", "46091", "2026-03-10T00:00:00Z")]
    // 2026-03-10 is 46091 days after 1899-12-30: 45658 is 2025-01-01 in the workbooks of every office program.
    [InlineData("1", "45658.5", "2025-01-01T12:00:00Z")]
    public void A_number_with_the_style_of_a_date_is_a_date(string style, string serial, string utc)
    {
        var built = Built(Dated(style, serial, ""), Given.Choices with { TimeZone = "UTC" }).WithoutProblems().Rows.Single().Value;

        built.Start.ShouldBe(NodaTime.Text.InstantPattern.ExtendedIso.Parse(utc).Value);
    }

    [Fact]
    public void The_1904_system_counts_1462_days_later()
        => Built(Dated("1", "44629.5", "<workbookPr date1904=\"1\"/>"), Given.Choices with { TimeZone = "UTC" }).WithoutProblems().Rows.Single().Value.Start
            .ShouldBe(Instant.FromUtc(2026, 3, 10, 12, 0));

    [Fact]
    public void A_number_without_the_style_of_a_date_is_no_date_and_says_so()
        => Built(Dated("4", "46091.5", "")).TheProblem().Expected.ShouldContain("this looks like a spreadsheet's day number");

    [Fact]
    public void Shared_texts_formulas_and_padded_numbers_give_what_the_sheet_shows()
    {
        var book = new XlsxText
        {
            // 18.4.8: a text in runs, one of them phonetic (18.4.6), which is not part of the text.
            SharedStrings = "<si><t>Pile No</t></si><si><t>Zone</t></si><si><r><t>X </t></r><r><t>[m]</t></r><rPh><t>eks</t></rPh></si><si><t>Y [m]</t></si><si><t>A</t></si>",
            Styles = Styles,
        }.With("Sheet1", "<row r=\"1\"><c r=\"A1\" t=\"s\"><v>0</v></c><c r=\"B1\" t=\"s\"><v>1</v></c><c r=\"C1\" t=\"s\"><v>2</v></c><c r=\"D1\" t=\"s\"><v>3</v></c></row>"
            // 18.3.1.4: a formula with its kept value; 18.8.30: four zeros fill a pile number up.
            + "<row r=\"2\"><c r=\"A2\" s=\"3\"><v>12</v></c><c r=\"B2\" t=\"s\"><v>4</v></c><c r=\"C2\"><f>A2*2</f><v>392796.60100000002</v></c><c r=\"D2\"><f t=\"shared\" si=\"0\"/><v>1.5E3</v></c></row>"
            + "<row r=\"3\"><c r=\"A3\" t=\"str\"><f>\"A\"&amp;1</f><v>A1</v></c><c r=\"B3\" t=\"s\"><v>4</v></c><c r=\"C3\"><f>1/3</f></c><c r=\"D3\" t=\"e\"><v>#REF!</v></c></row>");

        var reading = Planned(book);

        reading.Rows.Single().Value.ShouldBe(new AsPlanned("0012", "A", new RecordedPosition(Frame.SiteGrid, 392796.601, 1500), null, null, null, null, null));
        reading.Problems.Select(problem => (problem.Line, problem.Column, problem.Found)).ShouldBe(
            [(3, "X", "(formula without a kept value)"), (3, "Y", "#REF!")]);
    }

    [Fact]
    public void Cells_and_rows_without_their_names_follow_each_other_and_gaps_stay_empty()
    {
        // 18.3.1.4 and 18.3.1.73: the attribute r is optional.
        const string rows = "<row><c t=\"inlineStr\"><is><t>Pile No</t></is></c><c t=\"inlineStr\"><is><t>Zone</t></is></c><c t=\"inlineStr\"><is><t>X [m]</t></is></c><c t=\"inlineStr\"><is><t>Y [m]</t></is></c><c t=\"inlineStr\"><is><t>Remark</t></is></c></row>"
            + "<row><c t=\"inlineStr\"><is><t>A-1</t></is></c><c t=\"inlineStr\"><is><t>A</t></is></c><c><v>1</v></c><c><v>2</v></c></row>"
            + "<row r=\"7\"><c r=\"A7\" t=\"inlineStr\"><is><t>A-2</t></is></c><c r=\"C7\"><v>1</v></c><c r=\"D7\"><v>2</v></c></row>";

        var reading = Planned(Of(rows));

        reading.Rows.Single().Line.ShouldBe(2);
        reading.TheProblem().ShouldBe(new ImportProblem(7, "Zone", "", "a zone of this site: A, B, C", false));
    }

    [Fact]
    public void A_decimal_comma_in_a_cell_of_text_is_told_or_chosen()
    {
        var book = Of(Row(1, PlannedTitles) + Row(2, "A-1", "A", "1000,5", "2000,25", "-28,05"));

        Planned(book).WithoutProblems().Rows.Single().Value.Position.First.ShouldBe(1000.5);
        Planned(book, Given.Choices with { DecimalComma = false }).Problems.ShouldAllBe(problem => problem.Expected == "a decimal point as in the rest of the file, not a comma");
    }

    [Fact]
    public void A_workbook_written_by_another_program_reads_like_the_text_it_was_made_from()
    {
        using var tools = new OutsideTools();
        var source = tools.Write("rows.csv", "Pile No,Zone,X [m],Y [m],Tip level [m]\nA-0001,A,1000.123,2000.456,-28.05\nA-0002,B,1002.1,2000,-28\n");
        OutsideTools.Run("ogr2ogr", ["-f", "XLSX", tools.Path("rows.xlsx"), source, "-oo", "AUTODETECT_TYPE=YES"]);

        using var book = File.OpenRead(tools.Path("rows.xlsx"));
        var reading = PlannedPileReader.Read(book, Given.Choices, TestContext.Current.CancellationToken).WithoutProblems();

        reading.Rows.Select(row => row.Value).ShouldBe(Given.Planned(File.ReadAllText(source)).Rows.Select(row => row.Value));
    }

    [Fact]
    public void Two_hundred_thousand_rows_are_read_without_holding_the_sheet()
    {
        var rows = new StringBuilder(Row(1, PlannedTitles));
        for (var number = 2; number <= 200_001; number++)
            rows.Append("<row><c t=\"inlineStr\"><is><t>A-").Append(number).Append("</t></is></c><c t=\"inlineStr\"><is><t>A</t></is></c><c><v>").Append(number).Append("</v></c><c><v>2</v></c></row>");
        using var book = Of(rows.ToString()).ToStream();
        rows.Clear();

        var reading = PlannedPileReader.Read(book, Given.Choices, TestContext.Current.CancellationToken).WithoutProblems();

        reading.Rows.Count.ShouldBe(200_000);
    }

    private static XlsxText Dated(string style, string serial, string properties) => new XlsxText { Styles = Styles, WorkbookProperties = properties }.With(
        "Sheet1",
        Row(1, "Record", "Pile No", "Barge", "Start", "Outcome")
        + $"<row r=\"2\"><c r=\"A2\" t=\"inlineStr\"><is><t>R1</t></is></c><c r=\"B2\" t=\"inlineStr\"><is><t>A-1</t></is></c><c r=\"C2\" t=\"inlineStr\"><is><t>Tern</t></is></c><c r=\"D2\" s=\"{style}\"><v>{serial}</v></c><c r=\"E2\" t=\"inlineStr\"><is><t>complete</t></is></c></row>");

    private static TableReading<AsPlanned> Planned(XlsxText book, ReadingChoices? choices = null)
        => PlannedPileReader.Read(book.ToStream(), choices ?? Given.Choices, TestContext.Current.CancellationToken);

    private static TableReading<Installation> Built(XlsxText book, ReadingChoices? choices = null)
        => InstallationReader.Read(book.ToStream(), choices ?? Given.Choices, TestContext.Current.CancellationToken);
}
