using System.Globalization;
using Bunit;
using Shouldly;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Piles;
using SiteProgress.Web.Shell;
using Xunit;

namespace SiteProgress.Web.Tests.Shell;

/// <summary>Numbers and marks as people see them.</summary>
public sealed class ShowTests
{
    [Fact]
    public void Each_kind_of_number_has_its_decimals()
    {
        Show.Coordinate(1234567.8914).ShouldBe("1\u2009234\u2009567.891");
        Show.Millimetres(-0.0436).ShouldBe("\u221244");
        Show.Level(-12.345).ShouldBe("\u221212.35");
        Show.CubicMetres(1041.25).ShouldBe("1\u2009041.3");
        Show.Degrees(55.123456789).ShouldBe("55.12345679");
        Show.Bearing(7.0051).ShouldBe("7.01");
        Show.Percent(0.9849).ShouldBe("98.5");
        Show.Count(6012).ShouldBe("6\u2009012");
    }

    [Theory]
    [InlineData(-0.0004, 3, "0.000")]
    [InlineData(-0.0005, 3, "\u22120.001")]
    [InlineData(0, 0, "0")]
    [InlineData(-0.4, 0, "0")]
    [InlineData(999.95, 1, "1\u2009000.0")]
    public void What_rounds_to_zero_has_no_sign(double value, int decimals, string shown)
        => Show.Number(value, decimals).ShouldBe(shown);

    [Fact]
    public void What_is_no_number_is_a_dash_and_never_a_zero()
    {
        Show.Number(double.NaN, 2).ShouldBe("\u2014");
        Show.Number(double.PositiveInfinity, 2).ShouldBe("\u2014");
    }

    [Fact]
    public void The_culture_of_the_server_changes_nothing()
    {
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = new CultureInfo("de-DE");
            Show.Coordinate(-1234.5).ShouldBe("\u22121\u2009234.500");
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void A_missing_number_says_why()
    {
        using BunitContext context = new();
        var dash = context.Render(Show.Or(null, Show.Level, "no tide was recorded"));
        dash.Find("abbr").GetAttribute("title").ShouldBe("no tide was recorded");
        dash.Markup.ShouldContain("\u2014");
        context.Render(Show.Or(-1.5, Show.Level, "never asked")).Markup.ShouldBe("\u22121.50");
    }

    [Fact]
    public void Every_state_has_a_mark_of_its_own_and_a_word()
    {
        using BunitContext context = new();
        List<string> marks = [];
        foreach (PileState state in StateWords.All)
        {
            var mark = context.Render<StateMark>(parameters => parameters.Add(m => m.State, state));
            mark.Find(".state").TextContent.ShouldContain(StateWords.Of(state));
            marks.Add(mark.Find("svg").InnerHtml);
            StateWords.FromAddress(StateWords.InAddress(state)).ShouldBe(state);
        }

        marks.Distinct().Count().ShouldBe(StateWords.All.Count);
        StateWords.FromAddress("sunk").ShouldBeNull();
    }

    [Fact]
    public void Not_judged_never_reads_as_met()
    {
        using BunitContext context = new();
        string Text(Verdict verdict) => context.Render<VerdictMark>(p => p.Add(m => m.Verdict, verdict)).Find(".verdict").TextContent.Trim('\u00a0', ' ', '\n');
        Text(Verdict.Met).ShouldEndWith("met");
        Text(Verdict.NotMet).ShouldEndWith("not met");
        Text(Verdict.NotJudged).ShouldEndWith("not judged");
    }
}
