using System.Globalization;
using CsCheck;
using nietras.SeparatedValues;
using NodaTime;

namespace SiteProgress.Exchange.Tests;

public sealed class TableWriterTests
{
    [Fact]
    public void A_table_is_written_after_RFC_4180()
        => Written(writer => writer
            .Header("Pile No", "X [m]", "Remark").Text("A-1").Number(1234.5, 3).Text("said \"done\", twice\r\nover").EndRow())
            .ShouldBe("Pile No,X [m],Remark\r\nA-1,1234.500,\"said \"\"done\"\", twice\r\nover\"\r\n");

    [Theory]
    [InlineData("=1+1", "'=1+1")]
    [InlineData("+49", "'+49")]
    [InlineData("-12", "'-12")]
    [InlineData("@cell", "'@cell")]
    [InlineData("\tx", "'\tx")]
    [InlineData("\uFF1D1", "'\uFF1D1")]
    [InlineData("\r=1", "\"'\r=1\"")]
    [InlineData("=HYPERLINK(\"a\")", "\"'=HYPERLINK(\"\"a\"\")\"")]
    [InlineData("'=1", "'=1")]
    [InlineData("a=1", "a=1")]
    public void Text_that_begins_like_a_formula_gets_an_apostrophe(string text, string expected)
        => Written(writer => writer.Text(text).EndRow()).ShouldBe(expected + "\r\n");

    [Theory]
    [InlineData(-12.4, 2, "-12.40")]
    [InlineData(-0.0004, 3, "0.000")]
    [InlineData(0.0005, 3, "0.001")]
    [InlineData(6162897.28949, 3, "6162897.289")]
    [InlineData(1e20, 0, "100000000000000000000")]
    public void Numbers_are_written_plainly(double value, int decimals, string expected)
        => Written(writer => writer.Number(value, decimals).EndRow()).ShouldBe(expected + "\r\n");

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.NegativeInfinity)]
    public void What_is_no_number_is_not_written(double value)
        => Should.Throw<ArgumentOutOfRangeException>(() => Written(writer => writer.Number(value, 1)));

    [Fact]
    public void What_is_missing_is_an_empty_cell()
        => Written(writer => writer.Text(null).Number(null, 2).Whole(null).Time(null, DateTimeZone.Utc).Text("end").EndRow())
            .ShouldBe(",,,,end\r\n");

    [Fact]
    public void Times_carry_the_offset_of_their_zone()
        => Written(writer => writer.Time(Instant.FromUtc(2025, 10, 26, 1, 30), DateTimeZoneProviders.Tzdb["Europe/Copenhagen"]).EndRow())
            .ShouldBe("2025-10-26T02:30:00+01:00\r\n");

    [Fact]
    public void What_is_written_is_read_back_by_an_independent_reader()
    {
        var cell = Gen.Char["ab ,;\"\r\n\u00E9=+'0"].Array[0, 6].Select(characters => new string(characters));
        cell.Array[2, 4].Array[1, 8].Sample(
            table =>
            {
                var width = table.Min(row => row.Length);
                string[][] rows = [.. table.Select(row => row.Take(width).ToArray())];
                var text = Written(writer =>
                {
                    foreach (var row in rows)
                    {
                        foreach (var value in row)
                            writer.Text(value);
                        writer.EndRow();
                    }
                });

                Read(text).ShouldBe([.. rows.Select(row => row.Select(Guarded).ToArray())]);
            },
            iter: 500);
    }

    private static string Guarded(string value) => value.Length > 0 && "=+\r\n".Contains(value[0], StringComparison.Ordinal) ? "'" + value : value;

    private static string[][] Read(string text)
    {
        using var reader = Sep.New(',').Reader(options => options with { HasHeader = false, Unescape = true }).FromText(text);
        var rows = new List<string[]>();
        foreach (var row in reader)
            rows.Add(row[..].ToStringsArray());
        return [.. rows];
    }

    private static string Written(Action<TableWriter> write)
    {
        using var output = new StringWriter(CultureInfo.InvariantCulture);
        write(new TableWriter(output));
        return output.ToString();
    }
}
