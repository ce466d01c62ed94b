using SiteProgress.Exchange.TextTables;

namespace SiteProgress.Exchange.Tests.TextTables;

public sealed class PileNumberRuleTests
{
    private static readonly PileNumberRule Site = new("A-Z0-9-");

    [Theory]
    [InlineData("A-0001")]
    [InlineData("0012")]
    [InlineData("3-12")]
    [InlineData("12E05")]
    public void What_the_site_allows_is_a_pile_number(string number)
    {
        Site.Judge(number, out var suspicion).ShouldBeNull();
        suspicion.ShouldBeNull();
    }

    [Theory]
    [InlineData("=1+1")]
    [InlineData("+A1")]
    [InlineData("-A1")]
    [InlineData("@A1")]
    public void What_begins_like_a_formula_is_refused_even_where_its_characters_are_allowed(string number)
        => new PileNumberRule("A-Z0-9=+@-").Judge(number, out _).ShouldBe("a pile number; this begins like a spreadsheet formula");

    [Theory]
    [InlineData("a-01")]
    [InlineData("A 01")]
    [InlineData("A_01")]
    [InlineData("<b>A</b>")]
    [InlineData("A-01\u200B")]
    public void Other_characters_are_refused_with_the_class(string number)
        => Site.Judge(number, out _).ShouldBe("a pile number of the characters A-Z0-9- that this site allows");

    [Theory]
    [InlineData("12E+05", "exponent")]
    [InlineData("1.2E+05", "exponent")]
    [InlineData("3-Dec", "date")]
    [InlineData("Dec-03", "date")]
    [InlineData("03.12.2026", "date")]
    [InlineData("\uFF21\uFF0D\uFF11", "full-width")]
    public void What_a_spreadsheet_made_of_a_number_is_refused_and_said(string number, string why)
    {
        var expected = Site.Judge(number, out _);

        expected.ShouldNotBeNull();
        expected.ShouldContain(why);
    }

    [Theory]
    [InlineData("3-DEC")]
    [InlineData("2026-12-03")]
    public void What_may_be_a_number_or_a_date_is_allowed_and_suspected(string number)
    {
        Site.Judge(number, out var suspicion).ShouldBeNull();
        suspicion.ShouldBe("it looks like a date that a spreadsheet made of a pile number");
    }

    [Fact]
    public void A_suspected_number_is_a_warning_on_a_good_row()
    {
        var reading = Given.PlannedRows("3-DEC,A,1,2,,,").WithoutProblems();

        reading.Rows.Count.ShouldBe(1);
        reading.Warnings.ShouldHaveSingleItem().Found.ShouldBe("3-DEC");
    }

    [Fact]
    public void Blanks_around_a_number_are_no_part_of_it_and_leading_zeros_are()
        => Given.PlannedRows(" 0012 ,A,1,2,,,").WithoutProblems().Rows[0].Value.Number.ShouldBe("0012");

    [Fact]
    public void A_number_of_41_characters_is_too_long()
        => Site.Judge(new string('A', 41), out _).ShouldBe("a pile number of at most 40 characters");

    [Theory]
    [InlineData("A-C", "B", true)]
    [InlineData("A-C", "-", false)]
    [InlineData("AC-", "-A", false)]
    [InlineData("AC-", "A-", true)]
    [InlineData("A/.", "A/.", true)]
    [InlineData("A\\-C", "B", false)]
    [InlineData("A\\-C", "A-C", true)]
    public void The_class_is_read_as_classes_are_written(string characters, string number, bool allowed)
        => (new PileNumberRule(characters).Judge(number, out _) is null).ShouldBe(allowed);
}
