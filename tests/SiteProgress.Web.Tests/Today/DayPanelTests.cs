using Bunit;
using Shouldly;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Today;
using SiteProgress.Web.Today;
using Xunit;

namespace SiteProgress.Web.Tests.Today;

/// <summary>What one working day shows.</summary>
public sealed class DayPanelTests : BunitContext
{
    private static readonly DateOnly Day = new(2026, 5, 29);

    [Fact]
    public void Figures_add_up_the_barges_and_name_both_kinds_of_sand()
    {
        IRenderedComponent<DayPanel> panel = Draw(Report() with
        {
            Production = [new("Tern", "A", 12, 11, 170.5, 700.04, 574.0, 1, 2), new("Tern", "", 1, 0, 0, 30, 0, 0, 0)],
        });

        panel.FindAll(".figure dd").Select(figure => figure.TextContent).ShouldBe(["11", "170.5 m", "730.0 m³", "574.0 m³"]);
        panel.FindAll(".figure dt").Select(figure => figure.TextContent).ShouldBe(["Piles completed", "Metres of pile", "Sand in casing", "Sand in pile"]);
        panel.FindAll("tbody tr")[1].QuerySelector("abbr.missing").ShouldNotBeNull();
        panel.Find("tfoot").TextContent.ShouldContain("730.0");
    }

    [Fact]
    public void A_day_without_records_says_what_would_be_here()
        => Draw(Report()).Find(".empty").TextContent.ShouldContain("Nothing is on record for this day.");

    [Fact]
    public void Findings_are_counted_by_check_and_lead_to_their_piles()
    {
        IRenderedComponent<DayPanel> panel = Draw(Report() with
        {
            Production = [new("Tern", "A", 1, 1, 15, 60, 50, 0, 1)],
            Findings = [new(CheckName.Position, 1), new(CheckName.Sand, 1)],
            PilesWithFinding = [new("A-0547", "Tern", [CheckName.Position, CheckName.Sand], 0.1652, 0.15)],
            Worst = new("A-0547", "Tern", [CheckName.Position], 0.1652, 0.15),
        });

        panel.Find("dl.facts").TextContent.ShouldContain("position 1");
        panel.Find("ul.links a").GetAttribute("href").ShouldBe("/sites/x/piles/A-0547");
        panel.Find("ul.links li").TextContent.ShouldContain("165 mm (limit 150 mm)");
        panel.Find("dl.facts a").GetAttribute("href").ShouldBe("/sites/x/piles?day=2026-05-29&finding=Position");
    }

    [Fact]
    public void What_a_crew_wrote_is_text_and_nothing_else()
    {
        IRenderedComponent<DayPanel> panel = Draw(Report() with
        {
            Production = [new("Tern", "A", 1, 0, 0, 6, 0, 1, 0)],
            NotCompleted = [new("A-0304", true, "Tern", Outcome.Abandoned, PileState.Outstanding, "<img src=x onerror=alert(1)>")],
        });

        panel.FindAll("img").ShouldBeEmpty();
        panel.Find("dl.facts ul li").TextContent.ShouldContain("<img src=x");
        panel.Find("dl.facts ul li").TextContent.ShouldContain("abandoned");
    }

    private static DayReport Report() => new(Day, [], [], [], [], null);

    private IRenderedComponent<DayPanel> Draw(DayReport report)
        => Render<DayPanel>(with => with.Add(one => one.Site, "x").Add(one => one.Report, report).Add(one => one.Word, "Yesterday"));
}
