using System.Text;
using Shouldly;
using SiteProgress.Core.Design;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Design;
using SiteProgress.Jobs.Tests.RecordsIn;
using Xunit;

namespace SiteProgress.Jobs.Tests.Design;

/// <summary>Doubtful piles of recorded schedules.</summary>
public sealed class DoubtfulScheduleTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    [Fact]
    public async Task The_schedules_of_the_demonstration_hold_none_and_one_that_doubles_a_pile_of_another_zone_is_told()
    {
        await using Intake intake = await Intake.OpenAsync(database);
        Permit manager = await intake.PermitAsync(Role.ProjectManager);
        foreach (string zone in new[] { "a", "b", "c" }) await intake.BringInAsync(manager, $"{zone}.csv", Intake.File("seed-data", $"planned-piles-zone-{zone}.csv"));
        ReadDoubtfulPiles.View drawn = await ReadAsync(intake, manager);
        (drawn.Held, drawn.Doubtful.Doubts.Count, drawn.Doubtful.UnusableOutlines.Count).ShouldBe((6021, 0, 0));

        await intake.BringInAsync(manager, "more.csv", Encoding.UTF8.GetBytes("Pile No,Zone,X [m],Y [m]\nB-9001,B,1000.003,2000.000\nA-9002,A,1001.000,1990.000\nA-9003,A,1001.500,1990.000\n"));

        PileDoubt[] doubts = [.. (await ReadAsync(intake, await intake.PermitAsync(Role.OwnersRepresentative))).Doubtful.Doubts];
        doubts.Select(doubt => (doubt.Kind, doubt.Pile.Number, doubt.Other?.Number)).ShouldBe(
        [
            (DoubtKind.Doubled, "A-0001", "B-9001"), (DoubtKind.TooClose, "A-9002", "A-9003"), (DoubtKind.InOtherZone, "B-9001", null),
            (DoubtKind.InNoZone, "A-9002", null), (DoubtKind.InNoZone, "A-9003", null),
        ], ignoreOrder: true);
    }

    private static Task<ReadDoubtfulPiles.View> ReadAsync(Intake intake, Permit permit) => intake.Get<ReadDoubtfulPiles>().RunAsync(permit, Intake.Cancellation);
}
