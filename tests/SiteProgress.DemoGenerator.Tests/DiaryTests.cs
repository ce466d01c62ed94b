using Shouldly;
using Xunit;

namespace SiteProgress.DemoGenerator.Tests;

public class DiaryTests
{
    private static readonly IReadOnlyList<IReadOnlyDictionary<string, string>> Lines = SeedData.Rows("diary.csv");

    [Fact]
    public void Hours_of_a_barge_add_up_to_the_working_day_and_to_23_when_the_clocks_change()
    {
        foreach (var day in Lines.GroupBy(line => (Day: line["working day"], Barge: line["barge"])))
            day.Sum(line => SeedData.Number(line["hours"])).ShouldBe(day.Key.Day == "2026-03-28" ? 23 : 24, 0.001, day.Key.ToString());
    }

    [Fact]
    public void Every_barge_writes_every_day_from_its_arrival_to_the_last()
    {
        Lines.Where(line => line["barge"] == "Tern").Select(line => line["working day"]).Distinct().Count().ShouldBe(89);
        Lines.Where(line => line["barge"] == "Plover").Select(line => line["working day"]).Distinct().Count().ShouldBe(82);
        Lines.Where(line => line["barge"] == "Curlew").Select(line => line["working day"]).Distinct().Count().ShouldBe(68);
    }

    [Fact]
    public void Seventy_five_days_are_planned_for_work_and_none_is_worked_on_a_rest_day()
    {
        var days = Lines.GroupBy(line => line["working day"]).ToList();
        var rest = days.Where(day => day.Any(line => line["activity"] == "rest day")).Select(day => day.Key).ToList();
        // Some work begun before a rest day ends in it (a repair, a load of sand), but no pile is built on one.
        (days.Count - rest.Count).ShouldBe(75);
        SeedData.Rows("truth/truth.csv").ShouldAllBe(row => !rest.Contains(row["working day"]));
    }

    [Fact]
    public void Installing_takes_as_long_as_the_piles_of_the_day_took()
    {
        // A set-up's piles are built side by side, 20 to 60 minutes each; so a day's hours lie between those bounds for its set-ups.
        var hours = Lines.Where(line => line["activity"] == "installing").ToDictionary(line => (line["working day"], line["barge"]), line => SeedData.Number(line["hours"]));
        foreach (var day in SeedData.Rows("truth/truth.csv").GroupBy(row => (row["working day"], row["barge"])))
        {
            var setUps = day.Select(row => row["set up"]).Distinct().Count();
            hours[day.Key].ShouldBeInRange((setUps - 1) * 20 / 60.0, (setUps + 1) * 1.2);
        }
    }

    [Fact]
    public void Weather_and_the_crews_own_troubles_both_cost_time()
    {
        var all = Lines.Sum(line => SeedData.Number(line["hours"]));
        (Share("standby") / all).ShouldBeInRange(0.2, 0.45);
        (Share("break-down") / all).ShouldBeInRange(0.005, 0.05);
    }

    private static double Share(string activity) => Lines.Where(line => line["activity"] == activity).Sum(line => SeedData.Number(line["hours"]));
}
