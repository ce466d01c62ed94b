using System.Text.Json;
using AngleSharp.Dom;
using Bunit;
using NodaTime;
using Shouldly;
using SiteProgress.Core.Bias;
using SiteProgress.Core.Deviations;
using SiteProgress.Jobs.Deviations;
using SiteProgress.Web.Deviations;
using Xunit;

namespace SiteProgress.Web.Tests.Deviations;

/// <summary>What the parts of the page draw.</summary>
public sealed class DeviationComponentsTests : BunitContext
{
    private static readonly DeviationQuery Everything = DeviationQuery.Read("/p", null, null, null, null, null, null, null, null, null, null);

    [Fact]
    public void The_scatter_holds_every_kind_the_limit_and_the_mean_and_leads_to_piles()
    {
        DeviationReview review = Review(Point("A-1", 0.02, 0.03), Point("A-2", 0.2, 0.1), Point("A-3", -0.1, 0, judged: false), Point("A-4", 40, 0, judged: false));

        JsonElement[] series = Json(ScatterOption.Of(review, "x")).GetProperty("series").EnumerateArray().ToArray();

        series.Select(one => one.GetProperty("name").GetString()).ShouldBe(["within limit", "not judged", "beyond limit", "limit 150 mm", "95 % ellipse", "mean"]);
        JsonElement beyond = series[2].GetProperty("data")[0];
        beyond.GetProperty("address").GetString().ShouldBe("/sites/x/piles/A-2");
        beyond.GetProperty("value").EnumerateArray().Select(value => value.GetDouble()).ShouldBe([200, 100]);
        series[0].GetProperty("data").GetArrayLength().ShouldBe(1);
        series[1].GetProperty("data").GetArrayLength().ShouldBe(1);
        series[3].GetProperty("data")[0][0].GetDouble().ShouldBe(150, 1e-9);
        ScatterOption.Outside(review).ShouldBe(1);
    }

    [Fact]
    public void A_hundred_thousand_points_stay_a_picture_of_bounded_size()
    {
        Random chance = new(7);
        DeviationPoint[] points = Enumerable.Range(0, 100_000)
            .Select(index => Point($"P{index}", (chance.NextDouble() - 0.5) / 5, (chance.NextDouble() - 0.5) / 5)).ToArray();

        JsonSerializer.SerializeToUtf8Bytes(ScatterOption.Of(Review(points), "x")).Length.ShouldBeLessThan(700_000);
    }

    [Fact]
    public void A_position_at_the_end_of_the_world_does_not_widen_the_picture_beyond_four_limits()
        => ScatterOption.HalfWidthMetres(Review(Point("A-1", 1e9, 0), Point("A-2", 0, 0))).ShouldBeLessThanOrEqualTo(1);

    [Fact]
    public void A_claim_says_its_sentence_its_standing_and_the_causes_beside_it()
    {
        BiasPile[] piles = Enumerable.Range(0, 240).Select(index => new BiasPile(
            $"A-{index}", "Tern", 1 + (index % 3), $"S{index / 3}", "A", Instant.FromUtc(2026, 3, 1, 6, 0).Plus(Duration.FromHours(index / 3)), new LocalDate(2026, 3, 1).PlusDays(index / 30),
            index / 3 % 2 * 180, index, 0, index % 3 == 2 ? 0.1 * (1 - (index / 3 % 2 * 2)) : 0.001 * (index % 7), 0.001 * (index % 5), 0.1, 0, new PositionLimit(0.15))).ToArray();
        BiasSite site = new([], 0, 0.03);
        BiasView view = new(1, 0.03, BiasReview.Run(piles, [], site), [], [new LastCheck("Tern", null, null, 240)]);

        IRenderedComponent<BiasClaims> claims = Render<BiasClaims>(with => with.Add(one => one.Site, "x").Add(one => one.View, view));

        claims.Find(".claim").TextContent.ShouldContain("Casing 3 of Tern against its neighbours, 2026-03-01 to 2026-03-08: recorded");
        claims.Find(".standing").TextContent.ShouldBe("suspected");
        claims.Find(".claim-ways a").GetAttribute("href").ShouldBe("/sites/x/deviations?barge=Tern&casing=3&from=2026-03-01&to=2026-03-08#figures");
        claims.Find(".how table").TextContent.ShouldContain("excluded");
        claims.Markup.ShouldContain("Tern was never checked");
        claims.FindAll("td").ShouldContain(cell => cell.TextContent == "never");
    }

    [Fact]
    public void A_row_leads_to_its_pile_and_says_near_the_limit_and_not_judged_in_words()
    {
        ListDeviations.Page page = new(3, [Row("A-1", 0.151, 0.03, true), Row("A-2", 0.149, 0.0005, true), Row("A-3", null, null, false)]);

        IRenderedComponent<DeviationList> list = Render<DeviationList>(
            with => with.Add(one => one.Site, "x").Add(one => one.Query, Everything).Add(one => one.Page, page));

        IElement[] rows = list.FindAll("tbody tr").ToArray();
        rows[0].QuerySelector("a")!.GetAttribute("href").ShouldBe("/sites/x/piles/A-1");
        rows[0].TextContent.ShouldContain("not met, near the limit");
        rows[0].QuerySelector(".verdict")!.GetAttribute("title")!.ShouldContain("0.1510 m, limit 0.150 m (<=)");
        rows[1].TextContent.ShouldContain("met");
        rows[1].TextContent.ShouldNotContain("near");
        rows[2].TextContent.ShouldContain("not judged");
        rows[2].QuerySelectorAll("abbr.missing").Length.ShouldBe(6);
        list.Find("th[aria-sort]").GetAttribute("aria-sort").ShouldBe("descending");
    }

    [Fact]
    public void Long_lists_have_pages()
    {
        IRenderedComponent<DeviationList> list = Render<DeviationList>(with => with
            .Add(one => one.Site, "x")
            .Add(one => one.Query, DeviationQuery.Read("/p", "B", null, null, null, null, null, null, null, null, 2))
            .Add(one => one.Page, new ListDeviations.Page(3499, [Row("A-1", 0.1, 0.03, true)])));

        list.Find("nav.pager span").TextContent.ShouldBe("Rows 51–100 of 3\u2009499");
        list.Find("a[rel=prev]").GetAttribute("href").ShouldBe("/p?zone=B#list");
        list.Find("a[rel=next]").GetAttribute("href").ShouldBe("/p?zone=B&page=3#list");
    }

    [Fact]
    public void Casings_show_their_set_ups_and_the_day_that_lies_farthest()
    {
        DeviationReview review = Review(Point("A-1", 0.02, 0.03), Point("A-2", 0.2, 0.1)) with
        {
            Casings = [new CasingDeviation("Plover", 3, 2, 1, Figures(Point("A-1", 0.02, 0.03), Point("A-2", 0.2, 0.1))), new CasingDeviation("Tern", null, 0, 4, null)],
            CasingDays = [new CasingDay("Plover", 3, new(2026, 3, 31), 4, 0.03, 0.04), new CasingDay("Plover", 3, new(2026, 4, 1), 2, 0.3, 0.4)],
        };

        IRenderedComponent<CasingTable> table = Render<CasingTable>(with => with.Add(one => one.Review, review).Add(one => one.Query, Everything));

        IElement[] rows = table.FindAll("tbody tr").ToArray();
        rows[0].TextContent.ShouldContain("2026-03-31: 50 mm, 4 piles");
        rows[0].QuerySelectorAll("a")[1].GetAttribute("href").ShouldBe("/p?barge=Plover&casing=3&from=2026-03-31&to=2026-03-31");
        rows[1].TextContent.ShouldContain("no judged pile");
        rows[1].QuerySelector("abbr.missing")!.GetAttribute("title")!.ShouldContain("do not say which casing");
    }

    [Fact]
    public void A_radius_the_standard_does_not_give_is_a_dash_with_the_reason()
    {
        IRenderedComponent<DeviationFigureTable> table = Render<DeviationFigureTable>(
            with => with.Add(one => one.Figures, Figures(Point("A-1", 0.02, 0.03))).Add(one => one.NotJudged, 3).Add(one => one.NotJudgedAddress, "/p?judged=not-judged"));

        table.FindAll("abbr.missing").Select(dash => dash.GetAttribute("title")).ShouldContain("The standard asks for at least 20 points; there are 1.");
        table.Find("p a").GetAttribute("href").ShouldBe("/p?judged=not-judged");
    }

    private static JsonElement Json(object option) => JsonSerializer.SerializeToElement(option);

    private static DeviationPoint Point(string number, double east, double north, bool judged = true)
        => new(
            number, east, north, Math.Sqrt((east * east) + (north * north)),
            judged ? Limit.Hold(east, north).Answer.Standing : null);

    private static PositionLimit Limit { get; } = new(0.15);

    private static DeviationFigures? Figures(params DeviationPoint[] points)
        => DeviationFigures.Of(points.Where(point => point.IsJudged)
            .Select(point => new JudgedDeviation(new PositionDeviation(point.EastMetres, point.NorthMetres, point.EastMetres, point.NorthMetres), Limit)).ToArray());

    private static DeviationReview Review(params DeviationPoint[] points) => new(
        DeviationSelection.All, 1, "Europe/Copenhagen", Figures(points), points.Count(point => !point.IsJudged), [], [], [Limit], points,
        new ReviewChoices(["A"], ["Tern"], [1], null, null));

    private static ListDeviations.Row Row(string number, double? radial, double? uncertainty, bool judged) => new(
        number, "A", "Tern", 1, "S1", new(2026, 3, 31), null, 1, radial, radial is null ? null : 0, radial, radial is null ? null : 0, radial, 0.15, uncertainty, judged)
    {
        IsWithinLimit = judged ? radial <= 0.15 : null,
        LimitShareRatio = radial / 0.15,
    };
}
