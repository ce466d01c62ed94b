using System.Globalization;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using Shouldly;
using SiteProgress.Core.Progress;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Progress;
using SiteProgress.Jobs.Tests.Demo;
using SiteProgress.Jobs.Today;
using SiteProgress.TestSupport;
using Xunit;

namespace SiteProgress.Jobs.Tests.Progress;

/// <summary>Progress of the demo against its raw files.</summary>
[Collection(DemoCollection.Name)]
public sealed class ReadProgressTests(DemoSite demo)
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Hours_by_barge_and_kind_are_those_of_the_diary()
    {
        ProgressView view = await ReadAsync();

        foreach (IGrouping<string, string[]> barge in Rows("diary.csv").GroupBy(row => row[1]))
        {
            BargeHours hours = view.Hours.Single(one => one.Barge == barge.Key);
            hours.WrittenHours.ShouldBe(barge.Sum(Hours));
            hours.ByKind[TimeKind.Installing].ShouldBe(barge.Where(row => row[2] == "installing").Sum(Hours));
            hours.ByKind[TimeKind.Weather].ShouldBe(barge.Where(row => row[3] == "weather").Sum(Hours));
            hours.ByKind[TimeKind.Mechanical].ShouldBe(barge.Where(row => row[2] == "break-down").Sum(Hours));
            hours.Days.ShouldBe(barge.Select(row => row[0]).Distinct().Count());
        }

        view.DaysNotAddingUp.ShouldBeEmpty();
    }

    [Fact]
    public async Task Due_piles_are_read_off_the_schedule_between_its_saturdays()
    {
        ProgressView view = await ReadAsync();

        double all = 0;
        foreach (ZoneStanding zone in view.Zones.Where(zone => zone.Zone.Length > 0))
        {
            double before = Planned(zone.Zone, "2026-05-23"), after = Planned(zone.Zone, "2026-05-30");
            // Friday is the fifth of the six worked days of its week.
            zone.DuePiles!.Value.ShouldBe(before + ((after - before) * 5 / 6), 1e-9);
            all += zone.DuePiles.Value;
            zone.Built[^1].Piles.ShouldBe(zone.BuiltPiles);
        }

        view.Zones[^1].DuePiles!.Value.ShouldBe(all, 1e-9);
        view.Zones[^1].BuiltPiles.ShouldBe(3499);
        view.Zones[^1].Standing!.TimeIndexRatio!.Value.ShouldBeInRange(0.7, 1);

        static double Planned(string zone, string day) => double.Parse(Rows("planned-progress.csv").Single(row => row[0] == day && row[1] == zone)[2], CultureInfo.InvariantCulture);
    }

    [Fact]
    public async Task Production_by_barge_casing_zone_and_shift_adds_up_to_the_same()
    {
        ProgressView view = await ReadAsync(new(2026, 4, 13), new(2026, 4, 18));

        foreach (string by in new[] { "barge", "casing", "zone", "shift" })
            view.Groups.Where(group => group.By == by).Sum(group => group.Attempts).ShouldBe(RawFiles.Built.Count(row => row.Day >= new DateOnly(2026, 4, 13) && row.Day <= new DateOnly(2026, 4, 18)));
    }

    [Fact]
    public async Task Attempts_not_completed_and_made_again_are_counted_apart()
    {
        ReworkTotal rework = (await ReadAsync()).Rework;

        rework.NotCompleted.ShouldBe(RawFiles.Built.Count(row => row.Outcome is "abandoned" or "interrupted"));
        // The swapped numbers and the wrong frame wait for a person and name no pile yet.
        int again = RawFiles.Built.Where(row => row.Outcome != "trial").GroupBy(row => row.Pile).Sum(pile => pile.Count() - 1);
        rework.Again.ShouldBeInRange(again - 2, again);
    }

    [Fact]
    public async Task A_cycle_is_its_penetration_and_withdrawal_and_a_set_up_has_up_to_three()
    {
        foreach (CycleFigures barge in (await ReadAsync()).Cycles)
        {
            barge.AttemptsPerSetUp.ShouldBeInRange(2.5, 3);
            (barge.PenetrationMinutes + barge.WithdrawalMinutes)!.Value.ShouldBeInRange(30, barge.OnPilesMinutes!.Value + 10);
            barge.SetUpToSetUpMinutes!.Value.ShouldBe(barge.OnPilesMinutes.Value + barge.MovingMinutes!.Value, 12);
        }
    }

    [Fact]
    public async Task The_forecast_begins_after_the_last_day_and_is_the_same_each_time()
    {
        ForecastView forecast = await ForecastAsync(null);

        forecast.Forecast.AsOf.ShouldBe(new NodaTime.LocalDate(2026, 5, 29));
        forecast.Forecast.Zones.Sum(zone => zone.Piles).ShouldBe(2522);
        int setUps = forecast.Forecast.Zones.Sum(zone => zone.SetUps);
        setUps.ShouldBeInRange((2522 + 2) / 3, 2522 * 4 / 10);
        forecast.Forecast.Site.P10!.Value.ShouldBeLessThan(forecast.Forecast.Site.P50!.Value);
        forecast.Forecast.Site.P50!.Value.ShouldBeLessThan(forecast.Forecast.Site.P90!.Value);
        forecast.Target.ShouldBe(new DateOnly(2026, 7, 18));
        forecast.Assumptions.Count.ShouldBe(8);
        forecast.Past.Count(week => week.Inside is not null).ShouldBeGreaterThan(5);
        (await ForecastAsync(null)).Forecast.Site.ShouldBe(forecast.Forecast.Site);
        (await ForecastAsync(new(2027, 1, 1))).Forecast.TargetRatio!.Value.ShouldBeGreaterThan(0.9);
    }

    private async Task<ForecastView> ForecastAsync(DateOnly? by)
        => (await new ForecastFinish(demo.Services.GetRequiredService<NpgsqlDataSource>(), TimeProvider.System)
            .RunAsync(await demo.PermitAsync(Role.OwnersRepresentative), by, ForecastFinish.Depth.Whole, Cancellation)).ShouldNotBeNull();

    private async Task<ProgressView> ReadAsync(DateOnly? from = null, DateOnly? to = null)
    {
        NpgsqlDataSource store = demo.Services.GetRequiredService<NpgsqlDataSource>();
        return (await new ReadProgress(store, new ReadProduction(store)).RunAsync(await demo.PermitAsync(Role.ProjectManager), from, to, Cancellation)).ShouldNotBeNull();
    }

    private static decimal Hours(string[] row) => decimal.Parse(row[5], CultureInfo.InvariantCulture);

    /// <summary>Rows of a plain file whose only quoted cell is the fourth.</summary>
    private static IEnumerable<string[]> Rows(string name)
    {
        foreach (string line in File.ReadLines(Path.Combine(Checkout.Folder, "seed-data", name)).Skip(1))
        {
            string[] parts = line.Split('"');
            yield return parts.Length == 1 ? line.Split(',') : [.. parts[0].TrimEnd(',').Split(','), parts[1], .. parts[2].TrimStart(',').Split(',')];
        }
    }
}
