using System.Globalization;
using System.Text;
using CsCheck;
using nietras.SeparatedValues;
using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.Tests.TextTables;

/// <summary>The rules of RFC 4180 section 2, by their number, and what happens to lines that break them.</summary>
public sealed class RecordSplitterTests
{
    [Fact]
    public void Rule_1_every_record_stands_on_its_line_ended_by_CR_LF()
        => Split("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n").ShouldBe(["1 aaa|bbb|ccc", "2 zzz|yyy|xxx"]);

    [Fact]
    public void Rule_2_the_last_record_may_lack_its_line_end()
        => Split("aaa,bbb,ccc\r\nzzz,yyy,xxx").ShouldBe(["1 aaa|bbb|ccc", "2 zzz|yyy|xxx"]);

    [Fact]
    public void Rule_4_blanks_are_part_of_a_cell_and_empty_cells_count()
        => Split(" a ,,\r\n,b, c").ShouldBe(["1  a ||", "2 |b| c"]);

    [Fact]
    public void Rule_5_a_cell_may_stand_in_quotation_marks()
        => Split("\"aaa\",\"bbb\",ccc\r\nzzz,\"\",xxx").ShouldBe(["1 aaa|bbb|ccc", "2 zzz||xxx"]);

    [Fact]
    public void Rule_6_line_ends_and_delimiters_within_quotation_marks_are_part_of_the_cell_and_lines_are_still_counted()
        => Split("\"aaa\",\"b \r\nbb\",\"c,c\"\r\nzzz,\"y\n\ny\",xxx\r\nend").ShouldBe(
            ["1 aaa|b \r\nbb|c,c", "3 zzz|y\n\ny|xxx", "6 end"]);

    [Fact]
    public void Rule_7_a_doubled_quotation_mark_is_one()
        => Split("\"aaa\",\"b\"\"bb\",\"\"\"\"").ShouldBe(["1 aaa|b\"bb|\""]);

    [Theory]
    [InlineData("a,b\nc,d\n")]
    [InlineData("a,b\rc,d\r")]
    [InlineData("a,b\r\nc,d\r\n")]
    public void Line_ends_of_three_kinds_are_understood(string text) => Split(text).ShouldBe(["1 a|b", "2 c|d"]);

    [Fact]
    public void A_quotation_mark_within_a_plain_cell_is_a_character_like_others()
        => Split("2\" pipe,b\n").ShouldBe(["1 2\" pipe|b"]);

    [Fact]
    public void Text_after_a_closing_quotation_mark_costs_its_line_only()
        => Split("\"a\"x,b\nc,d\n").ShouldBe(["1 TextAfterQuote", "2 c|d"]);

    [Fact]
    public void A_lost_quotation_mark_costs_its_line_only()
        => Split("a,b\nc,\"d\ne,f\ng,h\n").ShouldBe(["1 a|b", "2 QuoteNotClosed", "3 e|f", "4 g|h"]);

    [Fact]
    public void A_lost_quotation_mark_in_a_long_file_costs_its_line_only()
    {
        var text = new StringBuilder("a,\"b\n");
        for (var line = 2; line <= 60_000; line++)
            text.Append(CultureInfo.InvariantCulture, $"{line},x\n");

        var records = Split(text.ToString());

        records.Count.ShouldBe(60_000);
        records[0].ShouldBe("1 QuoteNotClosed");
        records[1].ShouldBe("2 2|x");
        records[^1].ShouldBe("60000 60000|x");
    }

    [Fact]
    public void A_line_longer_than_the_longest_record_is_skipped()
        => Split($"a,b\n{new string('x', 3 * RecordSplitter.LongestRecord)},1\nc,d\n").ShouldBe(["1 a|b", "2 TooLong", "3 c|d"]);

    [Fact]
    public void A_thousand_columns_are_refused()
        => Split($"a,b\n{new string(',', 1_000)}\nc,d\n").ShouldBe(["1 a|b", "2 TooManyCells", "3 c|d"]);

    [Fact]
    public void A_last_line_without_end_is_known()
    {
        var splitter = Splitter("a\nb", 100);

        splitter.Next().ShouldBe(RecordState.Good);
        splitter.EndsWithoutLineEnd.ShouldBeFalse();
        splitter.Next().ShouldBe(RecordState.Good);
        splitter.EndsWithoutLineEnd.ShouldBeTrue();
        splitter.Next().ShouldBe(RecordState.End);
    }

    [Fact]
    public void Any_table_written_by_rule_is_read_back_and_Sep_reads_the_same()
    {
        var cell = Gen.Char["ab ,;\"\r\n\u00E9\u20AC0"].Array[0, 6].Select(characters => new string(characters));
        Gen.Select(cell.Array[2, 5].Array[1, 12], Gen.Int[1, 9]).Sample(
            (table, block) =>
            {
                var width = table.Min(row => row.Length);
                string[][] rows = [.. table.Select(row => row.Take(width).ToArray())];
                var text = string.Concat(rows.Select(row => string.Join(',', row.Select(Quoted)) + "\r\n"));

                Cells(Splitter(text, block)).ShouldBe(rows);
                SepCells(text).ShouldBe(rows);
            },
            iter: 500);
    }

    [Fact]
    public void The_size_of_the_blocks_in_which_text_arrives_changes_nothing()
    {
        Gen.Select(Gen.Char["ab,\"\r\n"].Array[0, 60], Gen.Int[1, 7]).Sample(
            (characters, block) => Split(new string(characters), block).ShouldBe(Split(new string(characters), 1_000)),
            iter: 2_000);
    }

    private static string Quoted(string cell) => $"\"{cell.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";

    private static string[][] SepCells(string text)
    {
        using var reader = Sep.New(',').Reader(options => options with { HasHeader = false, Unescape = true }).FromText(text);
        var rows = new List<string[]>();
        foreach (var row in reader)
            rows.Add(row[..].ToStringsArray());
        return [.. rows];
    }

    private static string[][] Cells(RecordSplitter splitter)
    {
        var rows = new List<string[]>();
        while (splitter.Next() is RecordState.Good)
            rows.Add([.. Enumerable.Range(0, splitter.CellCount).Select(cell => splitter.Cell(cell).ToString())]);
        return [.. rows];
    }

    private static List<string> Split(string text, int block = 100_000)
    {
        var splitter = Splitter(text, block);
        var records = new List<string>();
        while (splitter.Next() is var state and not RecordState.End)
        {
            var cells = Enumerable.Range(0, splitter.CellCount).Select(cell => splitter.Cell(cell).ToString());
            records.Add(string.Create(
                CultureInfo.InvariantCulture, $"{splitter.Line} {(state is RecordState.Good ? string.Join('|', cells) : state.ToString())}"));
        }

        return records;
    }

    private static RecordSplitter Splitter(string text, int block)
    {
        var position = 0;
        return new RecordSplitter(
            (buffer, offset, count) =>
            {
                var length = Math.Min(Math.Min(count, block), text.Length - position);
                text.CopyTo(position, buffer, offset, length);
                position += length;
                return length;
            },
            ',');
    }
}
