using System.Globalization;
using NodaTime;

namespace SiteProgress.Exchange.Tests;

/// <summary>
/// The same file says the same under every culture of the machine, and the same table is written. German writes decimal
/// commas, Arabic of Saudi Arabia and Persian have other calendars and digits, Turkish other small letters.
/// </summary>
public sealed class CultureTests
{
    private const string File =
        "PILE_ID;Zone;X [m];Y [m];Tip level [m];Diameter\nA-1;A;1.234,5;2000,25;-28,1;2,0\nA-2;Q;x;1;1;1\nA-3;A;99999999;1;;\n";

    [Theory]
    [InlineData("de-DE")]
    [InlineData("tr-TR")]
    [InlineData("ar-SA")]
    [InlineData("fa-IR")]
    public void A_file_is_read_and_a_table_written_the_same(string culture)
    {
        var expected = Under("", ReadAndWrite);

        Under(culture, ReadAndWrite).ShouldBe(expected);
        expected.ShouldContain("A-1 1234.5 2000.25 -28.1");
    }

    private static string ReadAndWrite()
    {
        var reading = Given.Planned(File);
        var built = Given.BuiltAt("2026-03-29 02:30", "1.1.2031 07:00");
        using var output = new StringWriter(CultureInfo.InvariantCulture);
        new TableWriter(output).Text("i").Number(-1234.5678, 3).Whole(-1_000_000).Time(Instant.FromUtc(2026, 3, 10, 6, 52), DateTimeZone.Utc).EndRow();
        var rows = reading.Rows.Select(row => FormattableString.Invariant(
            $"{row.Value.Number} {row.Value.Position.First} {row.Value.Position.Second} {row.Value.TipLevelMetres}"));
        return string.Join('\n', [
            .. rows, .. reading.Problems.Select(problem => problem.Sentence), .. reading.Assumptions,
            .. built.Problems.Select(problem => problem.Sentence), output.ToString()]);
    }

    private static string Under(string culture, Func<string> work)
    {
        var (before, beforeInterface) = (CultureInfo.CurrentCulture, CultureInfo.CurrentUICulture);
        try
        {
            (CultureInfo.CurrentCulture, CultureInfo.CurrentUICulture) = (new CultureInfo(culture), new CultureInfo(culture));
            return work();
        }
        finally
        {
            (CultureInfo.CurrentCulture, CultureInfo.CurrentUICulture) = (before, beforeInterface);
        }
    }
}
