using Bunit;
using NodaTime;
using Shouldly;
using SiteProgress.Core.Forecast;
using SiteProgress.Jobs.Progress;
using SiteProgress.Web.Progress;
using Xunit;

namespace SiteProgress.Web.Tests.Progress;

/// <summary>What the forecast says of itself.</summary>
public sealed class ForecastPanelTests : BunitContext
{
    private const string Misled = "less was done than nine of ten runs expected";
    private static readonly LocalDate Day = new(2026, 5, 1);

    public ForecastPanelTests() => JSInterop.Mode = JSRuntimeMode.Loose;

    [Fact]
    public void Several_last_weeks_below_what_was_expected_are_told_as_a_past_that_misleads()
        => Shown(Week(0, 70), Week(1, 40), Week(2, 45), Week(3, null)).ShouldContain("In the last 2 weeks whose four weeks are over, " + Misled);

    [Fact]
    public void One_week_below_or_weeks_below_long_ago_are_not()
    {
        Shown(Week(0, 70), Week(1, 40), Week(2, null)).ShouldNotContain(Misled);
        Shown(Week(0, 40), Week(1, 40), Week(2, 70)).ShouldNotContain(Misled);
    }

    [Fact]
    public void Few_days_left_are_told_as_an_interval_that_holds_more_than_eight_of_ten()
    {
        Shown(0.86).ShouldContain("from P10 to P90, both counted, lie 86 % of the runs");
        Shown(0.81).ShouldNotContain("Days are whole");
    }

    [Fact]
    public void Without_a_working_day_it_says_what_would_stand_there()
        => Render<ForecastPanel>(with => with.Add(one => one.Site, "x").Add(one => one.View, null)).Markup.ShouldContain("It takes a working day with set-ups that is over.");

    private string Shown(params BackTestWeek[] past) => Shown(0.8, past);

    private string Shown(double inside, params BackTestWeek[] past)
    {
        FinishDates finish = new(Day.PlusDays(40), Day.PlusDays(50), Day.PlusDays(60)) { InsideRatio = inside };
        ForecastView view = new(
            new FinishForecast(Day, finish, [new ZoneFinish("A", 100, 300, finish)], [], null, 10_000, 60, []), null, new ForecastOptions(), default, [new AssumptionShift("Nothing changes", 0)], past);
        ComponentFactories.AddStub<SiteProgress.Web.Shell.Chart>();
        return Render<ForecastPanel>(with => with.Add(one => one.Site, "x").Add(one => one.View, view)).Markup;
    }

    private static BackTestWeek Week(int number, int? done) => new(Day.PlusDays(-70 + (7 * number)), new FinishDates(null, null, null), 50, 60, 80, done);
}
