using AngleSharp.Dom;
using Bunit;
using Shouldly;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Piles;
using SiteProgress.Web.Piles;
using Xunit;

namespace SiteProgress.Web.Tests.Piles;

public sealed class PileRecordTests : BunitContext
{
    private const string Hostile = "<img src=x onerror=alert(1)>";

    [Theory]
    [InlineData(Verdict.Met, "met")]
    [InlineData(Verdict.NotMet, "not met")]
    [InlineData(Verdict.NotJudged, "not judged")]
    public void A_verdict_is_shown_by_its_own_word_alone(Verdict verdict, string word)
    {
        IElement row = Rows(new CheckResult(CheckName.Sand, verdict, true, verdict == Verdict.NotJudged ? null : 0.97, verdict == Verdict.NotJudged ? null : 0.95, "ratio", false, "Sand >= limit.")).Single();

        row.QuerySelector(".verdict")!.TextContent.Trim().Replace('\u00a0', ' ').Trim().ShouldBe(word);
    }

    [Fact]
    public void A_check_not_judged_has_no_figure_and_says_what_is_missing()
    {
        IElement row = Rows(CheckResult.Missing(CheckName.Position, true, "m", "The position comes from a fix other than RTK-fixed (RtkFloat).")).Single();

        row.ClassList.ShouldContain("not-judged");
        row.QuerySelectorAll("td.number").ShouldAllBe(cell => cell.TextContent.Trim() == "\u2014");
        row.QuerySelectorAll("td.number abbr").ShouldAllBe(missing => missing.GetAttribute("title")!.Contains("RtkFloat"));
        row.QuerySelector(".reason")!.TextContent.ShouldContain("a fix other than RTK-fixed");
        row.QuerySelector(".verdict-met").ShouldBeNull();
    }

    [Fact]
    public void A_value_just_beyond_its_limit_never_looks_like_the_limit()
    {
        IElement row = Rows(new CheckResult(CheckName.Position, Verdict.NotMet, true, 0.15004, 0.15, "m", true, "Radial <= limit.")).Single();

        row.QuerySelectorAll("td.number").Select(cell => cell.TextContent.Trim()).ShouldBe(["150.04", "\u2264 150.00"]);
        row.QuerySelector(".verdict")!.TextContent.ShouldContain("near the limit");
    }

    [Theory]
    [InlineData(CheckName.Sand, "ratio", 1.0281, 0.95, "Sand in pile >= limit.", "102.8", "\u2265 95.0")]
    [InlineData(CheckName.Tip, "m", -0.06, 0.2, "Tip <= limit.", "\u22120.06", "\u2264 0.20")]
    [InlineData(CheckName.Tip, "m", 15.6, 15, "Length >= least length.", "15.60", "\u2265 15.00")]
    [InlineData(CheckName.Top, "m", 0.13, 0.3, "Top, either way, <= limit.", "0.13", "\u2264 \u00b1 0.30")]
    [InlineData(CheckName.Verticality, "deg", 0.5, 1.2, "Inclination <= limit.", "0.50", "\u2264 1.20")]
    public void Value_and_limit_stand_in_the_unit_of_the_trade(CheckName check, string unit, double value, double limit, string reason, string shown, string shownLimit)
    {
        CheckResult result = new(check, Verdict.Met, true, value, limit, unit, false, reason);

        CheckFigures.Value(result).ShouldBe(shown);
        CheckFigures.Limit(result).ShouldBe(shownLimit);
    }

    [Fact]
    public void Every_check_can_be_asked_how()
    {
        CheckResult[] checks = [.. CheckNames.OfPiles.Select(check => CheckResult.Missing(check, false, "m", "Nothing."))];

        Rows(checks).ShouldAllBe(row => row.QuerySelector("details.how dd") != null);
    }

    [Fact]
    public void A_remark_and_a_number_are_shown_letter_by_letter()
    {
        IRenderedComponent<PileAttempts> shown = Render<PileAttempts>(parameters => parameters
            .Add(page => page.Site, "sandlark").Add(page => page.Record, GivenPile.Record([], Hostile, Hostile)));

        shown.FindAll("img").ShouldBeEmpty();
        shown.Find(".remark dd").TextContent.ShouldBe(Hostile);
        shown.FindAll("dd").Count(value => value.TextContent == Hostile).ShouldBe(2);
    }

    [Fact]
    public void Typing_markup_for_a_pile_number_gives_its_letters_back()
    {
        IRenderedComponent<UnknownPile> shown = Render<UnknownPile>(parameters => parameters
            .Add(page => page.Site, "sandlark").Add(page => page.Number, Hostile)
            .Add(page => page.Around, new ReadPileRecord.Unknown(null, [Hostile], 1)));

        shown.FindAll("img").ShouldBeEmpty();
        shown.Find("strong").TextContent.ShouldBe(Hostile);
        shown.Find("a.chip").GetAttribute("href").ShouldBe("/sites/sandlark/piles/%3Cimg%20src%3Dx%20onerror%3Dalert%281%29%3E");
    }

    [Fact]
    public void The_sketch_draws_limit_alert_uncertainty_and_both_positions_at_their_radius()
    {
        IRenderedComponent<PositionSketch> shown = Render<PositionSketch>(parameters => parameters.Add(sketch => sketch.Record, GivenPile.With()));

        shown.Find("circle.limit").GetAttribute("r").ShouldBe("150");
        shown.Find("circle.alert").GetAttribute("r").ShouldBe("100");
        IElement uncertainty = shown.Find("circle.uncertainty");
        uncertainty.GetAttribute("r").ShouldBe("30");

        // dE 120 mm to the right; dN 90.5 mm upward, which on a drawing is downward negative.
        uncertainty.GetAttribute("cx").ShouldBe("120");
        uncertainty.GetAttribute("cy").ShouldBe("-90.5");
        shown.FindAll("circle.touch-down[cx]").Count.ShouldBe(1);
        shown.Find("circle.design").GetAttribute("r").ShouldBe("1000");
    }

    [Fact]
    public void Sand_delivered_is_said_to_be_missing_and_never_zero()
    {
        IRenderedComponent<PileSand> shown = Render<PileSand>(parameters => parameters.Add(sand => sand.Record, GivenPile.With()));

        shown.FindAll("dd")[0].QuerySelector("abbr")!.TextContent.ShouldBe("\u2014");
        shown.Markup.ShouldContain("71.5");
        shown.Markup.ShouldContain("57.2");
    }

    private IReadOnlyList<IElement> Rows(params CheckResult[] checks)
        => Render<PileChecks>(parameters => parameters.Add(list => list.Record, GivenPile.With(checks))).FindAll("tbody tr");
}
