using Bunit;
using Shouldly;
using SiteProgress.Planning;
using SiteProgress.Web.Planning;
using Xunit;

namespace SiteProgress.Web.Tests.Planning;

/// <summary>What the page says while a plan is made.</summary>
public sealed class PlanStepsTests : BunitContext
{
    [Fact]
    public void Every_step_has_words_of_its_own_and_moves_the_bar()
    {
        string[] words = [.. Enum.GetValues<PlanStep>().Select(step => Shown(step, false).Find("p").TextContent)];

        words.Distinct().Count().ShouldBe(words.Length);
        Shown(PlanStep.Layings, false).Find("progress").GetAttribute("value").ShouldBe("3");
        Shown(null, false).Find("p").TextContent.ShouldContain("one plan is made at a time");
    }

    [Fact]
    public void The_button_asks_to_stop_and_is_gone_once_it_was_asked()
    {
        int asked = 0;

        Render<PlanSteps>(with => with.Add(one => one.OnStop, () => { asked++; })).Find("button").Click();

        asked.ShouldBe(1);
        Shown(PlanStep.Layings, true).FindAll("button").ShouldBeEmpty();
    }

    private IRenderedComponent<PlanSteps> Shown(PlanStep? step, bool stopping)
        => Render<PlanSteps>(with => with.Add(one => one.At, step).Add(one => one.Stopping, stopping).Add(one => one.OnStop, () => { }));
}
