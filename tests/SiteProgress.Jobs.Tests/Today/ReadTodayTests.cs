using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using Shouldly;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Tests.Demo;
using SiteProgress.Jobs.Today;
using Xunit;

namespace SiteProgress.Jobs.Tests.Today;

/// <summary>The manager's page of the demo against the raw files and plain SQL.</summary>
[Collection(DemoCollection.Name)]
public sealed class ReadTodayTests(DemoSite demo)
{
    private static readonly DateOnly Last = new(2026, 5, 29);

    [Fact]
    public async Task Long_after_the_last_record_the_latest_working_day_is_shown_with_its_age()
    {
        TodayView today = await ReadAsync(now: new(2026, 11, 24, 12, 0, 0, TimeSpan.Zero));

        today.CurrentDay.ShouldBe(new DateOnly(2026, 11, 24));
        today.Day.ShouldBe(Last);
        today.DaysOld.ShouldBe(179);
        today.Days.Select(day => day.Day).ShouldBe([new DateOnly(2026, 5, 28), Last]);
        today.Next.ShouldBeNull();
    }

    [Theory]
    [InlineData("2026-05-29T10:00:00Z", "2026-05-29")]
    // Half past five in the morning site time still belongs to the working day before.
    [InlineData("2026-05-30T03:30:00Z", "2026-05-29")]
    [InlineData("2026-05-30T10:00:00Z", "2026-05-30")]
    public async Task While_there_are_records_of_today_or_yesterday_the_current_day_is_shown(string now, string day)
    {
        TodayView today = await ReadAsync(DateTimeOffset.Parse(now, null));

        today.Day.ShouldBe(DateOnly.Parse(day, null));
        today.Days[0].Day.ShouldBe(today.Day == Last ? new DateOnly(2026, 5, 28) : Last);
    }

    [Fact]
    public async Task Two_days_after_the_last_record_the_latest_day_is_shown()
        => (await ReadAsync(new(2026, 5, 31, 10, 0, 0, TimeSpan.Zero))).Day.ShouldBe(Last);

    [Theory]
    [InlineData("2026-05-29")]
    [InlineData("2026-05-28")]
    [InlineData("2026-04-15")]
    [InlineData("2026-03-28")]
    [InlineData("2026-03-02")]
    public async Task Production_by_barge_and_zone_is_that_of_the_raw_files(string day)
    {
        DateOnly asked = DateOnly.Parse(day, null);
        DayReport report = (await ReadAsync(day: asked)).Days[^1];
        RawRow[] raw = RawFiles.Built.Where(row => row.Day == asked && row.Outcome != "trial").ToArray();

        foreach (BargeZoneProduction one in report.Production.Where(one => one.Zone.Length > 0))
        {
            RawRow[] rows = raw.Where(row => row.Barge == one.Barge && row.Zone == one.Zone).ToArray();
            one.Attempts.ShouldBe(rows.Length);
            one.SandInCasingCubicMetres.ShouldBe(rows.Sum(row => row.Sand ?? 0), 1e-6);
            one.AttemptsNotCompleted.ShouldBe(rows.Count(row => row.Outcome is "abandoned" or "interrupted"));
            if (rows.Any(row => row.Outcome is "abandoned" or "interrupted")) continue;
            one.Piles.ShouldBe(rows.Length);
            one.Metres.ShouldBe(rows.Sum(row => row.Top - row.Tip)!.Value, 1e-6);
        }

        report.Production.Where(one => one.Zone.Length > 0).Sum(one => one.Attempts).ShouldBe(raw.Length);
    }

    [Fact]
    public async Task The_last_two_days_are_those_the_generator_states()
    {
        TodayView today = await ReadAsync();

        today.Days[0].Total.Piles.ShouldBe(30);
        today.Days[0].Total.Metres.ShouldBe(175.60 + 150.14 + 141.44, 1e-6);
        today.Days[1].Total.Piles.ShouldBe(90);
        today.Days[1].Total.SandInCasingCubicMetres.ShouldBe(2020.8 + 874.1 + 1687.6, 1e-6);
    }

    [Fact]
    public async Task Every_attempt_not_completed_is_named_on_its_day()
    {
        RawRow[] raw = RawFiles.Built.Where(row => row.Outcome is "abandoned" or "interrupted").ToArray();
        List<string> named = [];
        foreach (DateOnly day in raw.Select(row => row.Day).Distinct())
            named.AddRange((await ReadAsync(day: day)).Days[^1].NotCompleted.Select(attempt => attempt.Number));

        named.Order().ShouldBe(raw.Select(row => row.Pile).Order());
        raw.Length.ShouldBe(14);
    }

    [Fact]
    public async Task States_add_up_to_the_planned_piles_and_agree_with_the_store()
    {
        TodayView today = await ReadAsync();

        today.States.Sum(one => one.Piles).ShouldBe(6021);
        foreach (StateCount one in today.States)
            ((long)one.Piles).ShouldBe(await demo.OneAsync<long>($"select count(*) from derived.pile where state = {(int)one.State}"));
    }

    [Fact]
    public async Task Zones_count_built_piles_and_metres_like_the_store()
    {
        ZoneProgress zone = (await ReadAsync()).Zones.Single(one => one.Zone == "A");

        zone.PlannedPiles.ShouldBe(2160);
        // Of the 1272 that stand by the files, six have their record in the wrong frame.
        zone.BuiltPiles.ShouldBe(1266);
        zone.PlannedMetres.ShouldBe(2160 * 15.5, 1e-6);
        zone.AsBuiltMetres.ShouldBe(await demo.OneAsync<double>("select sum(length) from derived.pile where zone = 'A' and state > 0"), 1e-6);
        zone.ByCountRatio!.Value.ShouldBe(1266.0 / 2160, 1e-12);
    }

    [Fact]
    public async Task Waiting_records_are_the_two_swapped_and_the_six_in_the_wrong_frame()
        => (await ReadAsync()).Waiting.ShouldBe(
            [new WaitingCount(MatchOutcome.SwappedNumbers, 2), new WaitingCount(MatchOutcome.WrongFrame, 6)]);

    [Fact]
    public async Task Curlews_common_offset_shows_in_its_last_check_and_nowhere_else()
    {
        TodayView today = await ReadAsync();

        BargeCheck curlew = today.Checks.Single(check => check.Barge == "Curlew");
        curlew.LastDay.ShouldBe(new DateOnly(2026, 5, 18));
        curlew.DaysWithoutCheck.ShouldBe(11);
        Math.Sqrt(Math.Pow(curlew.MeanEastMetres!.Value, 2) + Math.Pow(curlew.MeanNorthMetres!.Value, 2)).ShouldBeGreaterThan(0.15);
        today.Checks.Where(check => check.Barge != "Curlew")
            .ShouldAllBe(check => Math.Abs(check.MeanEastMetres!.Value) < 0.03 && Math.Abs(check.MeanNorthMetres!.Value) < 0.03);
        ((long)curlew.InstallationsSince).ShouldBe(await demo.OneAsync<long>(
            "select count(*) from derived.installation where barge = 'Curlew' and match <> 8 and ended_at > (select max(measured_at) from derived.position_check where barge = 'Curlew')"));
    }

    [Fact]
    public async Task Rate_is_the_mean_of_the_last_ten_days_in_the_raw_files()
    {
        var days = RawFiles.Built.Where(row => row.Outcome != "trial").GroupBy(row => row.Day).OrderByDescending(day => day.Key).Take(10).ToArray();

        PlainRate rate = (await ReadAsync()).Rate!;

        rate.PilesPerDay.ShouldBe(days.Sum(day => day.Count(row => row.Stands && row.Outcome != "interrupted")) / 10m);
        rate.FirstDay.ShouldBe(days[^1].Key);
        rate.LeftPiles.ShouldBe(6021 - 3499);
    }

    [Fact]
    public async Task Findings_of_a_day_are_those_of_its_piles()
    {
        DayReport report = (await ReadAsync(day: new(2026, 3, 31))).Days[^1];

        report.PilesWithFinding.Count.ShouldBe(
            (int)await demo.OneAsync<long>("select count(*) from derived.pile where working_day = '2026-03-31' and findings <> ''"));
        report.Findings.Single(one => one.Check == CheckName.Position).Piles.ShouldBe(
            (int)await demo.OneAsync<long>("select count(*) from derived.pile where working_day = '2026-03-31' and findings like '%Position%'"));
        report.Worst!.RadialMetres!.Value.ShouldBe(
            await demo.OneAsync<double>("select max(deviation_radial) from derived.pile where working_day = '2026-03-31' and comparable"));
    }

    [Fact]
    public async Task Production_of_a_period_adds_up_to_the_days()
    {
        ReadProduction read = ActivatorUtilities.CreateInstance<ReadProduction>(demo.Services);
        Permit permit = await demo.PermitAsync(Role.Surveyor);

        IReadOnlyList<ReadProduction.Line> all = await read.RunAsync(permit, null, null, TestContext.Current.CancellationToken);
        IReadOnlyList<ReadProduction.Line> week = await read.RunAsync(permit, new(2026, 4, 13), new(2026, 4, 18), TestContext.Current.CancellationToken);

        all.Sum(line => line.Piles).ShouldBe(3499);
        week.ShouldBe(all.Where(line => line.WorkingDay >= new DateOnly(2026, 4, 13) && line.WorkingDay <= new DateOnly(2026, 4, 18)));
        week.Sum(line => line.Attempts).ShouldBe(RawFiles.Built.Count(row => row.Day >= new DateOnly(2026, 4, 13) && row.Day <= new DateOnly(2026, 4, 18)));
    }

    private async Task<TodayView> ReadAsync(DateTimeOffset? now = null, DateOnly? day = null)
    {
        SettableTime time = new() { Now = now ?? new(2026, 6, 20, 12, 0, 0, TimeSpan.Zero) };
        ReadToday read = new(demo.Services.GetRequiredService<NpgsqlDataSource>(), time);
        return (await read.RunAsync(await demo.PermitAsync(Role.ProjectManager), day, TestContext.Current.CancellationToken)).ShouldNotBeNull();
    }
}
