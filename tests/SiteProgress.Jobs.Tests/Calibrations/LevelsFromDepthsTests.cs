using System.Text;
using NodaTime;
using Shouldly;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Calibrations;
using SiteProgress.Jobs.Piles;
using SiteProgress.Jobs.Recording;
using SiteProgress.Jobs.RecordsIn;
using SiteProgress.Jobs.Senders;
using SiteProgress.Jobs.Tests.Senders;
using SiteProgress.Jobs.Verification;
using Xunit;

namespace SiteProgress.Jobs.Tests.Calibrations;

/// <summary>From typed calibrations, an imported gauge and a depth that a logger sends to a judged level, over the real store.</summary>
public sealed class LevelsFromDepthsTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    private const string Plan = "Pile No,Zone,X [m],Y [m]\nA-0001,A,1000,2000\n";

    // 08:10 UTC is 09:10 in Copenhagen in winter: 1.80 at 09:00 and 2.10 at 09:30 give 1.90 at 09:10.
    private const string Water = "Time,Water level [m]\n2026-03-10T09:00+01:00,1.80\n2026-03-10T09:30+01:00,2.10\n2026-03-10T10:00+01:00,2.30\n";

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_depth_below_water_becomes_a_level_by_the_water_of_its_own_moment_and_the_input_is_kept()
    {
        await using SentSite site = await OpenAsync();
        (await BringInAsync(site, "tide.csv", Water)).ShouldBeNull();
        await SendAsync(site, "\"tipDepthBelowWater\":30.00,\"topDepthBelowWater\":14.45");

        // Tip at 09:10: 1.90 - 30.00; top at 09:40: 2.10 + 0.20 / 3 = 2.166667 - 14.45, by hand.
        (await NumberAsync(site, "tip")).ShouldBe(-28.10, 1e-9);
        (await NumberAsync(site, "top")).ShouldBe(-12.283333, 1e-6);
        string levels = await site.OneAsync<string>("select levels::text from derived.installation i join record.site s on s.site = i.site where s.code = $1", site.Code);
        levels.ShouldContain("depth of the tip below water");
        levels.ShouldContain("gauge site");
        (await site.OneAsync<string>("select convert_from(body, 'UTF8') from record.site_record r join record.site s on s.site = r.site where s.code = $1 and kind = 21", site.Code)).ShouldNotContain("tipLevel");
        (await ChecksAsync(site)).ShouldNotContain("water level");
        (await site.Get<VerifySite>().RunAsync(site.Code, Cancellation))!.Sound.ShouldBeTrue();
    }

    [Fact]
    public async Task Without_a_water_level_the_tip_is_not_judged_and_a_series_that_comes_later_judges_it()
    {
        await using SentSite site = await OpenAsync();
        await SendAsync(site, "\"tipDepthBelowWater\":30.00,\"topDepthBelowWater\":14.45");
        (await ChecksAsync(site)).ShouldContain("The record gives a depth, and the site has no observed water levels.");

        (await BringInAsync(site, "tide.csv", Water)).ShouldBeNull();

        (await NumberAsync(site, "tip")).ShouldBe(-28.10, 1e-9);
    }

    [Fact]
    public async Task A_depth_below_deck_takes_the_calibration_of_its_time_and_the_gauge_as_described()
    {
        await using SentSite site = await OpenAsync();
        Permit surveyor = await site.PermitAsync(Role.Surveyor);
        EnterRow enter = site.Get<EnterRow>();
        (await enter.RunAsync(surveyor, BatchContent.Calibrations, [("Barge", "Tern"), ("Valid from", "2026-03-01T06:00"), ("Evidence", "Docking survey"), ("Deck above keel [m]", "5.00")], Cancellation)).ShouldBeNull();
        (await enter.RunAsync(surveyor, BatchContent.Calibrations, [("Barge", "Tern"), ("Casing", "1"), ("Valid from", "2026-03-01T06:00"), ("Evidence", "Report 7"), ("Forward [m]", "20"), ("Starboard [m]", "6")], Cancellation)).ShouldBeNull();
        (await enter.RunAsync(surveyor, BatchContent.Calibrations, [("Barge", "Tern"), ("Casing", "1"), ("Valid from", "2026-04-01T06:00"), ("Evidence", "Report 9"), ("Forward [m]", "21")], Cancellation)).ShouldBeNull();
        (await BringInAsync(site, "tide.csv", Water)).ShouldBeNull();
        (await site.Get<KeepGauges>().DescribeAsync(surveyor, "site", new LocalDateTime(2026, 3, 1, 0, 0), -0.10, 0.02, 45, "Levelling", "first", Cancellation)).ShouldBeNull();

        await SendAsync(site, "\"tipDepthBelowDeck\":32.54,\"draught\":2.10,\"list\":1,\"trim\":0.5");

        // Water 1.90 - 0.10 + 0.02; freeboard 2.620759 as worked by hand in LevelFormulasTests: 1.82 + 2.620759 - 32.54.
        (await NumberAsync(site, "tip")).ShouldBe(-28.099241, 5e-6);
        CalibrationsView view = await site.Get<ReadCalibrations>().RunAsync(surveyor, Cancellation);
        view.Calibrations.Single(line => line.Value.Evidence == "Report 7").ShouldSatisfyAllConditions(
            line => line.Installations.ShouldBe(1), line => line.Until.ShouldBe(Instant.FromUtc(2026, 4, 1, 4, 0))); // 06:00 in summer time
        view.Gauges.ShouldHaveSingleItem().ShouldSatisfyAllConditions(gauge => gauge.Readings.ShouldBe(3), gauge => gauge.ZeroMetres.ShouldBe(-0.10));

        LevelsOfAttempt told = (await new ReadPileLevels(site.Get<SiteHistories>()).RunAsync(surveyor, "a-0001", Cancellation)).ShouldHaveSingleItem();
        told.Derived!.Top.ShouldBeNull();
        told.Derived.Tip!.Inputs.Select(input => input.Name).ShouldBe(
            ["water level", "deck above keel", "casing forward", "casing to starboard", "list, starboard down", "draught at the reference point", "trim, bow down", "freeboard at the casing", "depth of the tip below deck"]);
        told.Derived.Tip.Inputs.Single(input => input.Name == "deck above keel").Source.ShouldBe("Docking survey");
        (told.CasingCalibration!.Value.Evidence, told.BargeCalibration!.Value.Evidence).ShouldBe(("Report 7", "Docking survey"));
    }

    [Fact]
    public async Task A_gauge_is_checked_against_a_reading_of_its_own_moment()
    {
        await using SentSite site = await OpenAsync();
        Permit surveyor = await site.PermitAsync(Role.Surveyor);
        (await BringInAsync(site, "tide.csv", Water)).ShouldBeNull();
        (await site.Get<KeepGauges>().CheckAsync(surveyor, "site", new LocalDateTime(2026, 3, 10, 9, 10), 1.87, "staff at the quay", 0.02, Cancellation)).ShouldBeNull();

        GaugeCheckLine check = (await site.Get<ReadCalibrations>().RunAsync(surveyor, Cancellation)).GaugeChecks.ShouldHaveSingleItem();

        (check.GaugeMetres!.Value - check.LevelMetres).ShouldBe(0.03, 1e-9);
    }

    [Fact]
    public async Task A_check_measurement_is_typed_and_shows_when_its_barge_was_last_checked()
    {
        await using SentSite site = await OpenAsync();
        Permit surveyor = await site.PermitAsync(Role.Surveyor);
        (string, string?)[] typed =
        [
            ("Time", "2026-03-10T11:00:00"), ("Barge", "Tern"), ("Casing", "1"), ("Pile No", null), ("X recorded [m]", "1000.10"), ("Y recorded [m]", "2000.00"),
            ("X measured [m]", "1000.05"), ("Y measured [m]", "2000.02"), ("Method", "total station, from the quay"), ("Uncertainty [m]", "0.02"),
        ];

        (await site.Get<EnterRow>().RunAsync(surveyor, BatchContent.CheckMeasurements, typed, Cancellation)).ShouldBeNull();

        BargeChecked tern = (await site.Get<ReadCalibrations>().RunAsync(surveyor, Cancellation)).Barges.Single(one => one.Barge.Name == "Tern");
        tern.LastChecked.ShouldBe(Instant.FromUtc(2026, 3, 10, 10, 0));
        tern.Checks.ShouldBe(1);
        (await site.Get<EnterRow>().RunAsync(surveyor, BatchContent.CheckMeasurements, [.. typed.Select(cell => cell.Item1 == "Casing" ? ("Casing", "9") : cell)], Cancellation))
            .ShouldNotBeNull().ShouldContain("Casing: found \u201C9\u201D; expected a casing of Tern");
    }

    [Fact]
    public async Task A_clock_put_right_moves_the_times_that_are_taken_and_a_correction_of_zero_takes_it_back()
    {
        await using SentSite site = await OpenAsync();
        Permit surveyor = await site.PermitAsync(Role.Surveyor);
        (await BringInAsync(site, "tide.csv", Water)).ShouldBeNull();
        await SendAsync(site, "\"tipDepthBelowWater\":30.00");
        CorrectClock correct = site.Get<CorrectClock>();
        LocalDateTime from = new(2026, 3, 10, 0, 0), until = new(2026, 3, 11, 0, 0);

        // Ten minutes ahead: the tip was reached at 09:00, with 1.80 of water.
        (await correct.RunAsync(surveyor, "Tern", "Tern logger", from, until, 600, "found against the site clock", Cancellation)).ShouldBeNull();
        (await NumberAsync(site, "tip")).ShouldBe(1.80 - 30, 1e-9);
        (await site.Get<ReadSenders>().RunAsync(surveyor, Cancellation)).Clocks.ShouldHaveSingleItem().Installations.ShouldBe(1);

        (await correct.RunAsync(surveyor, "Tern", "Tern logger", from, until, 0, "the site clock was wrong", Cancellation)).ShouldBeNull();
        (await NumberAsync(site, "tip")).ShouldBe(-28.10, 1e-9);
        (await correct.RunAsync(surveyor, "Heron", null, from, until, 10, "x", Cancellation)).ShouldBe("There is no barge 'Heron' on this site.");
        (await correct.RunAsync(surveyor, "Tern", null, until, from, 10, "x", Cancellation)).ShouldBe("The span must end after it begins.");
    }

    private async Task<SentSite> OpenAsync()
    {
        SentSite site = await SentSite.OpenAsync(database);
        (await BringInAsync(site, "plan.csv", Plan, Role.ProjectManager)).ShouldBeNull();
        return site;
    }

    private static async Task<string?> BringInAsync(SentSite site, string name, string text, Role role = Role.Surveyor)
    {
        Permit permit = await site.PermitAsync(role);
        UploadResult stored = await site.Get<StoreUpload>().RunAsync(permit, name, new MemoryStream(Encoding.UTF8.GetBytes(text)), Cancellation);
        return (await site.Get<RecordUpload>().RunAsync(permit, stored.Upload!.Value, UploadChoices.AsTheFileSays, false, Cancellation)).Refusal;
    }

    private static async Task SendAsync(SentSite site, string depths)
    {
        string sent = SentSite.Json("T-1").Replace("\"topLevel\":-12.45,\"tipLevel\":-28.1", depths, StringComparison.Ordinal);
        SentAnswer answer = await site.SendAsync(sent);
        answer.Recorded.ShouldBe(1, string.Join(' ', answer.Problems.Select(problem => problem.Expected)));
    }

    private static Task<double> NumberAsync(SentSite site, string column)
        => site.OneAsync<double>($"select {column} from derived.installation i join record.site s on s.site = i.site where s.code = $1", site.Code);

    private static Task<string> ChecksAsync(SentSite site)
        => site.OneAsync<string>("select checks::text from derived.pile p join record.site s on s.site = p.site where s.code = $1", site.Code);
}
