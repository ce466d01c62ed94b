using NodaTime;
using Shouldly;
using SiteProgress.Core.Piles;
using SiteProgress.Web.Progress;
using Xunit;

namespace SiteProgress.Web.Tests.Progress;

/// <summary>Windows of slack water as they are typed in the plan of work, in site time.</summary>
public sealed class WorkPlanFormTests
{
    private static readonly SiteSettings Site = new(
        "s", "Site", true, "Europe/Copenhagen", new LocalTime(6, 0), [], 25832, new LevelDatum("D", "d"), new GridAxes("X", "Y"), "A-Z0-9-", 0.05, [], [], []);

    [Fact]
    public void A_window_is_read_in_site_time_and_written_as_it_was_typed()
    {
        WorkPlanForm form = WorkPlanForm.Of(WorkPlan.Empty, Site);
        form.Windows = "2026-06-01 04:10, 2026-06-01 05:20, anchors, *\n2026-12-01 04:10, 2026-12-01 05:20, both, Tern";

        form.Problem().ShouldBeNull();
        WorkPlan plan = form.ToPlan();

        // Two hours ahead of UTC in June, one in December.
        plan.Windows.ShouldBe(
        [
            new SlackWindow(Instant.FromUtc(2026, 6, 1, 2, 10), Instant.FromUtc(2026, 6, 1, 3, 20), SlackUse.Anchors, null),
            new SlackWindow(Instant.FromUtc(2026, 12, 1, 3, 10), Instant.FromUtc(2026, 12, 1, 4, 20), SlackUse.Both, "Tern"),
        ]);
        WorkPlanForm.Of(plan, Site).Windows.ShouldBe(form.Windows);
    }

    [Fact]
    public void Without_windows_the_plan_has_none_so_that_old_plans_stay_as_they_were() => WorkPlanForm.Of(WorkPlan.Empty, Site).ToPlan().Windows.ShouldBeNull();

    [Theory]
    [InlineData("2026-06-01 04:10, 2026-06-01 05:20, anchors")]
    [InlineData("2026-06-01 04:10, 05:20, anchors, *")]
    [InlineData("01.06.2026 04:10, 2026-06-01 05:20, anchors, *")]
    [InlineData("2026-06-01 04:10, 2026-06-01 05:20, moving, *")]
    public void A_window_that_cannot_be_read_is_named_with_what_was_expected(string line)
    {
        WorkPlanForm form = WorkPlanForm.Of(WorkPlan.Empty, Site);
        form.Windows = line;

        form.Problem().ShouldNotBeNull().ShouldStartWith($"The window \"{line}\" cannot be read; expected its beginning and its end in site time");
    }
}
