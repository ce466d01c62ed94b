using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using Shouldly;
using SiteProgress.Core.SetUps;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Planning;
using SiteProgress.Jobs.Tests.Demo;
using SiteProgress.Planning;
using Xunit;

namespace SiteProgress.Jobs.Tests.Planning;

/// <summary>
/// A dated plan of the demo. Its tide is made of the periods 12.4206 h and 12.0 h and a slow swell of 0.12 m (generator, Sea.WaterLevel);
/// its barges rest on Sundays; its last records are of Saturday 2026-05-30 at the latest.
/// </summary>
[Collection(DemoCollection.Name)]
public sealed class PlanBargeTests(DemoSite demo)
{
    private static readonly SolverLimit Steps = new(60, Steps: 0.5);
    private static readonly DateTimeZone Clocks = DateTimeZoneProviders.Tzdb["Europe/Copenhagen"];

    [Fact]
    public async Task Anchors_are_laid_in_slack_water_set_ups_wait_for_the_tide_and_nobody_works_on_a_rest_day()
    {
        PlanBarge.Answer plan = await PlanAsync(new(
            "Tern", ["A"], Times: new PlanTimes(SlackMinutes: 45, InWindowMinutes: 60, DraughtMetres: 3, KeelMetres: 1, Seabeds: new Dictionary<string, double> { ["A"] = -4.0 })));

        PlanTimetable table = plan.Plan!.Timetable!;
        (table.NotDated, table.RoomUnknown).ShouldBe((0, 0));
        table.WaitHours.ShouldBeGreaterThan(0);
        PlannedSetUp[] setUps = [.. plan.Plan.Anchors.SelectMany(anchor => anchor.SetUps)];
        PlannedTime[] all = [.. plan.Plan.Anchors.Select(anchor => anchor.Laid!).Concat(setUps.Select(one => one.Time!)).OrderBy(one => one.Begins)];
        for (int one = 1; one < all.Length; one++) all[one].Begins.ShouldBeGreaterThanOrEqualTo(all[one - 1].Ends);
        // The working day begins at six, so Sunday's rest lasts until six on Monday.
        all.ShouldAllBe(time => time.Begins.InZone(Clocks).LocalDateTime.PlusHours(-6).DayOfWeek != IsoDayOfWeek.Sunday);
        foreach (PlannedSetUp one in setUps) one.Keel!.LeastRoomMetres!.Value.ShouldBeGreaterThanOrEqualTo(1 - 1e-9);
        // Half a period of the made tide: windows begin 45 min before a turn, and the first hour lies in one.
        foreach (PlannedAnchor anchor in plan.Plan.Anchors) FromATurn(anchor.Laid!.Begins).ShouldBeInRange(-46, -14);
        plan.Ground!.Tide.ShouldNotBeNull().ShouldContain("(M2, ");
        plan.Ground.WorkableRatio!.Value.ShouldBeInRange(0.5, 1);
    }

    [Fact]
    public async Task The_seabed_is_that_of_the_surveys_where_they_reach_and_a_draught_too_deep_leaves_nothing_dated()
    {
        PlanBarge.Answer surveyed = await PlanAsync(new("Tern", ["A"], Times: new PlanTimes(DraughtMetres: 3)));
        PlanBarge.Answer tooDeep = await PlanAsync(new("Tern", ["A"], Times: new PlanTimes(DraughtMetres: 20, Seabeds: new Dictionary<string, double> { ["A"] = -9 })));

        PlannedSetUp[] setUps = [.. surveyed.Plan!.Anchors.SelectMany(anchor => anchor.SetUps)];
        surveyed.Ground!.Surveys.ShouldBeGreaterThan(0);
        setUps.ShouldContain(one => one.Keel!.From.StartsWith("survey ", StringComparison.Ordinal));
        // Where no sounding lies below the hull nothing was stated for the zone either: not known, never enough.
        surveyed.Plan.Timetable!.RoomUnknown.ShouldBe(setUps.Count(one => one.Keel!.SeabedMetres is null));
        tooDeep.Plan!.Timetable!.NotDated.ShouldBe(tooDeep.Plan.SetUpCount);
        tooDeep.Plan.Anchors[0].SetUps[0].NotDated!.ShouldStartWith("not water enough at any tide looked at");
    }

    [Theory]
    [InlineData(0, null, "Hours worked a day are between 1 and 24.")]
    [InlineData(24, -1.0, "The draught is above 0 and at most 30 metres.")]
    public async Task What_no_barge_can_is_refused(double hours, double? draught, string said)
        => (await PlanAsync(new("Tern", ["A"], Times: new PlanTimes(HoursPerDay: hours, DraughtMetres: draught)))).Problem.ShouldBe(said);

    [Fact]
    public async Task A_seabed_of_a_zone_that_is_none_is_refused_by_name()
        => (await PlanAsync(new("Tern", ["A"], Times: new PlanTimes(Seabeds: new Dictionary<string, double> { ["Q"] = -9 })))).Problem.ShouldBe("There is no zone \"Q\" for a seabed; the site has A, B, C.");

    /// <summary>Minutes from the nearest high or low water of the demo's tide, by its own formula.</summary>
    private static double FromATurn(Instant at)
    {
        double Level(Instant moment)
        {
            double hours = (moment - Instant.FromUtc(2026, 3, 2, 5, 0)).TotalHours;
            return (0.98 * Math.Cos(2 * Math.PI * ((hours / 12.4206) - 0.21))) + (0.31 * Math.Cos(2 * Math.PI * ((hours / 12.0) - 0.05)));
        }

        for (int minutes = 0; minutes < 240; minutes++)
        {
            foreach (int off in new[] { minutes, -minutes })
            {
                Instant turn = at + Duration.FromMinutes(off);
                double before = Level(turn - Duration.FromMinutes(1)), now = Level(turn), after = Level(turn + Duration.FromMinutes(1));
                if ((now - before) * (now - after) >= 0) return -off;
            }
        }

        return double.NaN;
    }

    private async Task<PlanBarge.Answer> PlanAsync(PlanBarge.Request request)
        => (await ActivatorUtilities.CreateInstance<PlanBarge>(demo.Services).RunAsync(
            await demo.PermitAsync(Role.ProjectManager), request, Steps, null, TestContext.Current.CancellationToken)).ShouldNotBeNull();
}
