using Bunit;
using NodaTime;
using Shouldly;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Design;
using SiteProgress.Core.Design.Layouts;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Design;
using SiteProgress.Web.Design;
using Xunit;

namespace SiteProgress.Web.Tests.Design;

/// <summary>What the pages of a layout and of doubtful planned piles show.</summary>
public sealed class LayoutComponentsTests : BunitContext
{
    private static readonly Zone Zone = new(
        "A", "Trunk", Pattern.Square, 2.1, null, 2.0, -12.5, -28, TipRule.Level, null, 15, 0.7124, 3.1416, "Pit 1",
        new Limits(0.150, 0.300, 0.2, 0.05, 1.2, "Approval 1", "Clause 4.2"), null, [], []);

    private static readonly GridAxes Axes = new("X", "Y");

    [Fact]
    public void The_form_holds_what_was_asked_and_sends_every_part_of_it()
    {
        IRenderedComponent<LayoutForm> form = Render<LayoutForm>(with => with.Add(one => one.Site, "x").Add(one => one.View, View()));

        string[] fields = [.. form.FindAll("form.layout [name]").Select(field => field.GetAttribute("name")!)];
        fields.ShouldBe(View().Texts.Pairs().Select(pair => pair.Name), ignoreOrder: true);
        form.Find("textarea").GetAttribute("value").ShouldBe("0 0\n21 0\n21 21\n0 21");
        form.Find("input[name=numbers]").GetAttribute("value").ShouldBe("<b>{count}");
        form.Find("select[name=order] option[selected]").GetAttribute("value").ShouldBe("serpentine");
        form.Find("select[name=replaces] option[selected]").TextContent.ShouldBe("stays, this is added");
    }

    [Fact]
    public void An_outline_too_long_for_an_address_is_left_to_the_zone()
    {
        LayOutPiles.View view = View() with { Texts = View().Texts with { Corners = string.Join('\n', Enumerable.Range(0, 400).Select(corner => $"{corner}.125 {corner * corner}.250")) } };

        IRenderedComponent<LayoutForm> form = Render<LayoutForm>(with => with.Add(one => one.Site, "x").Add(one => one.View, view));

        form.Find("textarea").GetAttribute("value").ShouldBe("");
        form.Find("label[for=corners]").TextContent.ShouldContain("Empty: the outline of the zone");
    }

    [Fact]
    public void Figures_say_ratio_by_pattern_and_by_area_length_and_sand_in_pile_and_in_casing()
    {
        string text = Text(Render<LayoutFigureList>(with => with.Add(one => one.View, View()).Add(one => one.Layout, View().Layout!)).Markup);

        // 2.0 m at 2.1 m: 71.2 %; 15.5 m of π/4 D² are 48.7 m³, loose at C 0.8 60.9 m³.
        text.ShouldContain("Piles 100 in 10 rows");
        text.ShouldContain("pattern 71.2 %");
        text.ShouldContain("Pile to pile, face to face 0.10 m");
        text.ShouldContain("15.50 m; 3.1416 m³ a metre in the pile, 48.7 m³ in the pile, 60.9 m³ in the casing (C 0.80, Pit 1)");
    }

    [Fact]
    public void A_pile_without_tip_level_and_least_length_has_a_reason_in_place_of_its_sand()
    {
        LayOutPiles.View view = View(inputs => inputs with { TipLevelMetres = null, LeastLengthMetres = null });

        Render<LayoutFigureList>(with => with.Add(one => one.View, view).Add(one => one.Layout, view.Layout!))
            .FindAll("abbr.missing").ShouldAllBe(dash => dash.GetAttribute("title") == "Neither a tip level nor a least length is given.");
    }

    [Fact]
    public void The_picture_is_to_scale_with_the_second_axis_up()
    {
        PileLayout layout = View().Layout!;

        IRenderedComponent<LayoutSketch> sketch = Render<LayoutSketch>(with => with.Add(one => one.Layout, layout).Add(one => one.Axes, Axes).Add(one => one.Around, [new(23, 1), new(500, 1)]));

        sketch.Find("svg").GetAttribute("viewBox").ShouldBe("0 0 29 29"); // 21 m and two diameters on each side.
        sketch.Find(".outline").GetAttribute("d").ShouldBe("M4 25L25 25L25 4L4 4Z");
        sketch.Find(".pile").GetAttribute("d")!.Split('M').Length.ShouldBe(101);
        sketch.Find(".pile").GetAttribute("d")!.ShouldStartWith("M5.05 23.95h0");
        sketch.Find(".pile").GetAttribute("stroke-width").ShouldBe("2");
        sketch.Find(".stays").GetAttribute("d").ShouldBe("M27 24h0");
    }

    [Fact]
    public void Very_many_piles_are_drawn_as_rows_broken_where_a_part_is_left_out()
    {
        PileLayout layout = View(inputs => inputs with { Rings = [Ring(0, 0, 300, 300), Ring(100, 100, 200, 200)] }).Layout!;
        layout.Piles.Count.ShouldBeGreaterThan(15_000);

        IRenderedComponent<LayoutSketch> sketch = Render<LayoutSketch>(with => with.Add(one => one.Layout, layout).Add(one => one.Axes, Axes));

        int rows = layout.Figures.Rows;
        int broken = layout.Piles.GroupBy(pile => pile.Row).Count(row => row.Zip(row.Skip(1)).Any(two => two.First.Position.DistanceToMetres(two.Second.Position) > 10));
        broken.ShouldBeGreaterThan(40);
        sketch.Find(".pile").GetAttribute("d")!.Split('M').Length.ShouldBe(rows + broken + 1);
    }

    [Fact]
    public void Doubtful_piles_lead_to_both_piles_and_to_the_map()
    {
        PlannedPile one = new(1, "A-1", "A", new(0, 0), 2, -12, -28, null, null);
        DoubtfulPiles doubtful = DoubtfulPiles.Among([one, one with { Number = "B/2", Zone = "B", Position = new(0, 1.5) }], [Zone with { Outline = [[50, 0], [60, 0], [60, 10]] }]);

        IRenderedComponent<DoubtfulList> list = Render<DoubtfulList>(with => with.Add(shown => shown.Site, "x").Add(shown => shown.View, new ReadDoubtfulPiles.View(doubtful, 2, Axes, 7)));

        string text = Text(list.Markup);
        text.ShouldContain("2 doubts about 2 planned piles: 1 too close to another, 1 in the outline of no zone");
        text.ShouldContain("1.500 m from B/2 of zone B; at least 2.000 m");
        list.FindAll("tbody tr:first-child a").Select(link => link.GetAttribute("href")).ShouldBe(["/sites/x/piles/A-1", "/sites/x/piles/B%2F2", "/sites/x/map?pile=A-1"]);
    }

    [Fact]
    public void A_design_in_order_is_said_to_be_so()
        => Text(Render<DoubtfulList>(with => with.Add(shown => shown.Site, "x").Add(shown => shown.View, new ReadDoubtfulPiles.View(new([], []), 2160, Axes, 7))).Markup)
            .ShouldContain("None of 2\u2009160 planned piles is doubled");

    private static LayOutPiles.View View(Func<LayoutInputs, LayoutInputs>? other = null)
    {
        LayoutInputs inputs = new(
            "A", [Ring(0, 0, 21, 21)], Pattern.Square, 2.1, null, null, new SiteCoordinate(1.05, 1.05), 0, 1, 2, -12.5, -28, 15, 0.8, new NumberingRule("A-{count:4}"));
        LayoutTexts texts = new(
            "A", "0 0\n21 0\n21 21\n0 21", "square", "2.1", "", "", "1.05", "1.05", "0", "1", "2", "-12.5", "-28", "15", "<b>{count}", "1", "1", "1", "1", "serpentine", "row", "far-end", "no");
        return new(
            [Zone], Zone, texts, PileLayout.Of(other?.Invoke(inputs) ?? inputs).Layout, [], [], 0, false, [], new SandSource("Pit 1", 0.8, new LocalDate(2026, 2, 1), "Trial 1"), Axes, "SLD", "Europe/Copenhagen", 7);
    }

    private static SiteCoordinate[] Ring(double left, double low, double right, double high) => [new(left, low), new(right, low), new(right, high), new(left, high)];

    private static string Text(string markup) => string.Join(' ', System.Net.WebUtility.HtmlDecode(System.Text.RegularExpressions.Regex.Replace(markup, "<[^>]*>", " ")).Split([' ', '\n', '\r'], StringSplitOptions.RemoveEmptyEntries)).Replace(" ;", ";", StringComparison.Ordinal);
}
