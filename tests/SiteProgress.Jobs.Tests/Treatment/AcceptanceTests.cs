using System.Text.Json;
using Shouldly;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Core.Treatment;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Map;
using SiteProgress.Jobs.Outstanding;
using SiteProgress.Jobs.Piles;
using SiteProgress.Jobs.Planning;
using SiteProgress.Jobs.Tests.Map;
using SiteProgress.Jobs.Treatment;
using Xunit;

namespace SiteProgress.Jobs.Tests.Treatment;

/// <summary>Piles accepted one by one, in a lot, by a selection; and work that waits for a hold point.</summary>
public sealed class AcceptanceTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    private static readonly PileSelection Everything = new("", PileFilter.All);

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_lot_is_submitted_and_its_ready_piles_are_accepted_while_the_others_stay_out_with_the_reason()
    {
        await using TestSite site = await TreatedSites.OpenAsync(database, 3);
        Permit surveyor = await site.PermitAsync(Role.Surveyor);
        ReadLots.Selected selected = (await site.Job<ReadLots>().SelectedAsync(surveyor, Everything, Cancellation))!;
        selected.Piles.ShouldBe(10);
        selected.Submittable.ShouldBe(8);
        int number = (await site.Job<SubmitLot>().RunAsync(surveyor, Everything, "first row", selected.Hash!, Cancellation)).Number.ShouldNotBeNull();

        Permit owner = await site.PermitAsync(Role.OwnersRepresentative);
        ReadLots.One lot = (await site.Job<ReadLots>().OneAsync(owner, number, Cancellation))!;
        lot.Summary.Ready.Count.ShouldBe(7);
        lot.Summary.LeftOut.Single().ShouldBe(new LeftOutPile("A-0004", Readiness.NotReady, "Finding: position is not met."));
        (await site.Job<AcceptPiles>().LotAsync(owner, number, "", lot.Hash, Cancellation)).Refusal!.ShouldContain("A lot rule is not met or not judged");
        (await site.Job<AcceptPiles>().LotAsync(owner, number, "rules follow", lot.Hash, Cancellation)).Refusal.ShouldBeNull();

        (await site.StateAsync(0)).ShouldBe(PileState.Accepted);
        (await site.StateAsync(3)).ShouldBe(PileState.Finding);
        (await site.Job<ReadLots>().OneAsync(owner, number, Cancellation))!.Lot.AcceptedPiles.ShouldBe(7);
        (await site.Job<AcceptPiles>().LotAsync(owner, number, "again", lot.Hash, Cancellation)).Conflict.ShouldBeTrue();
    }

    [Fact]
    public async Task A_selection_that_changed_since_it_was_summed_up_is_refused()
    {
        await using TestSite site = await TreatedSites.OpenAsync(database);
        Permit owner = await site.PermitAsync(Role.OwnersRepresentative);
        string seen = (await site.Job<ReadLots>().SelectedAsync(owner, Everything, Cancellation))!.Hash!;
        await site.RecordAsync(Role.Surveyor, TestSite.BuiltRow(9, "again"));

        (await site.Job<AcceptPiles>().SelectionAsync(owner, Everything, "all", seen, Cancellation)).Conflict.ShouldBeTrue();
        (await site.StateAsync(0)).ShouldBe(PileState.Installed);
    }

    [Fact]
    public async Task A_pile_accepted_on_its_sheet_reopens_when_a_later_record_changes_it()
    {
        await using TestSite site = await TreatedSites.OpenAsync(database);
        Permit owner = await site.PermitAsync(Role.OwnersRepresentative);
        string seen = (await site.Job<ReadPileTreatment>().RunAsync(owner, "A-0001", Cancellation))!.Hash!;
        (await site.Job<AcceptPiles>().OneAsync(owner, "A-0001", "", seen, Cancellation)).Refusal.ShouldBeNull();
        (await site.StateAsync(0)).ShouldBe(PileState.Accepted);
        (await site.Job<AcceptPiles>().OneAsync(owner, "A-0001", "", seen, Cancellation)).Refusal!.ShouldContain("was accepted meanwhile");

        await BuildAgainAsync(site, 72);

        (await site.StateAsync(0)).ShouldBe(PileState.Installed);
        (await site.Job<CountWaiting>().RunAsync(owner, Cancellation)).PilesReopened.ShouldBe(1);
        (await site.Job<ReadPileTreatment>().RunAsync(owner, "A-0001", Cancellation))!.Treatment.Reopened.ShouldNotBeNull();
    }

    [Fact]
    public async Task What_was_signed_is_held_line_by_line_against_what_a_later_record_made_of_it()
    {
        await using TestSite site = await TreatedSites.OpenAsync(database);
        Permit owner = await site.PermitAsync(Role.OwnersRepresentative);
        ReadPileTreatment.View shown = (await site.Job<ReadPileTreatment>().RunAsync(owner, "A-0001", Cancellation))!;
        (await site.Job<AcceptPiles>().OneAsync(owner, "A-0001", "", shown.Hash!, Cancellation)).Refusal.ShouldBeNull();
        ReadSignedChanges read = site.Job<ReadSignedChanges>();
        (await read.PileAsync(owner, "A-0001", Cancellation)).ShouldBeNull();

        await BuildAgainAsync(site, 72);

        ReadSignedChanges.OfPile changes = (await read.PileAsync(owner, "A-0001", Cancellation))!;
        changes.IsWhatWasSigned.ShouldBeTrue();
        SheetChange sand = changes.Changes.Single(change => change.Label == "sand in casing, loose");
        sand.WhenSigned.ShouldBe(shown.Sheet!.Lines.Single(line => line.Label == "sand in casing, loose").Value);
        sand.Now.ShouldBe("72.0 m³");
        // A line that did not change is not told: the design is what it was.
        changes.Changes.ShouldNotContain(change => change.Label.StartsWith("design", StringComparison.Ordinal));
        (await read.PileAsync(owner, "A-0002", Cancellation)).ShouldBeNull();
    }

    [Fact]
    public async Task A_lot_says_which_of_its_piles_and_rules_are_no_longer_as_they_were_signed()
    {
        await using TestSite site = await TreatedSites.OpenAsync(database);
        Permit surveyor = await site.PermitAsync(Role.Surveyor);
        Permit owner = await site.PermitAsync(Role.OwnersRepresentative);
        int number = (await site.Job<SubmitLot>().RunAsync(
            surveyor, Everything, "first row", (await site.Job<ReadLots>().SelectedAsync(surveyor, Everything, Cancellation))!.Hash!, Cancellation)).Number.ShouldNotBeNull();
        ReadSignedChanges read = site.Job<ReadSignedChanges>();
        (await read.LotAsync(owner, number, Cancellation)).ShouldBeNull();
        string seen = (await site.Job<ReadLots>().OneAsync(owner, number, Cancellation))!.Hash;
        (await site.Job<AcceptPiles>().LotAsync(owner, number, "rules follow", seen, Cancellation)).Refusal.ShouldBeNull();
        ReadSignedChanges.OfLot before = (await read.LotAsync(owner, number, Cancellation))!;
        (before.IsWhatWasSigned, before.Reopened, before.Rules.Count).ShouldBe((true, 0, 0));

        await BuildAgainAsync(site, 72);

        ReadSignedChanges.OfLot after = (await read.LotAsync(owner, number, Cancellation))!;
        after.IsWhatWasSigned.ShouldBeTrue();
        after.Reopened.ShouldBe(1);
        after.Piles.Single().Number.ShouldBe("A-0001");
        after.Piles.Single().Changes.ShouldContain(change => change.Label == "sand in casing, loose" && change.Now == "72.0 m³");
    }

    /// <summary>Records a second attempt at the first pile, which then stands for it.</summary>
    private static Task BuildAgainAsync(TestSite site, double sandInCasing)
        => site.RecordAsync(Role.Surveyor, [.. TestSite.BuiltRow(1, "again").Select(body => body is PileInstalledBody built ? built with { Installation = built.Installation with { SandInCasing = sandInCasing } } : body)]);

    [Fact]
    public async Task What_waits_for_a_hold_point_says_so_until_both_have_signed()
    {
        await using TestSite site = await TreatedSites.OpenAsync(database);
        KeepHoldPoints keep = site.Job<KeepHoldPoints>();
        Permit surveyor = await site.PermitAsync(Role.Surveyor);
        Permit owner = await site.PermitAsync(Role.OwnersRepresentative);
        int number = (await keep.SetAsync(
            surveyor, new(HoldPointKind.BeforeAnchorsLift, "first anchor position", "clause 7", ["A-0001"], ["A-0009", "A-0010"], null, "Tern"), Cancellation)).Number.ShouldNotBeNull();
        (await site.Job<CountWaiting>().RunAsync(owner, Cancellation)).HoldPoints.Single().PilesWaiting.ShouldBe(2);
        string seen = (await site.Job<ReadHoldPoints>().RunAsync(owner, Cancellation)).All.Single().Hash;
        (int?[] list, int leftOut, int planned, int[][] map) = await HeldOnListPlanAndMapAsync(site, owner);
        (leftOut, planned).ShouldBe((2, 0));
        list.ShouldBe([number, number]);
        map.ShouldBe([[8, number], [9, number]]);

        (await keep.ReleaseAsync(owner, number, "", seen, Cancellation)).Refusal.ShouldBeNull();
        (await site.Job<ReadHoldPoints>().RunAsync(owner, Cancellation)).All.Single().Point.IsOpen().ShouldBeTrue();
        (await keep.SignAsSurveyorAsync(surveyor, number, "", seen, Cancellation)).Refusal.ShouldBeNull();
        (await site.Job<ReadHoldPoints>().RunAsync(owner, Cancellation)).All.Single().Point.IsOpen().ShouldBeFalse();
        (await site.Job<CountWaiting>().RunAsync(owner, Cancellation)).HoldPoints.ShouldBeEmpty();
        (list, leftOut, planned, map) = await HeldOnListPlanAndMapAsync(site, owner);
        (leftOut, planned, map.Length).ShouldBe((0, 2, 0));
        list.ShouldBe([null, null]);
    }

    /// <summary>The hold points of the outstanding piles in the list, how many piles a plan leaves out and takes for them, and the pairs the map is sent.</summary>
    private static async Task<(int?[] List, int LeftOut, int Planned, int[][] Map)> HeldOnListPlanAndMapAsync(TestSite site, Permit permit)
    {
        OutstandingView left = (await site.Job<ReadOutstanding>().RunAsync(permit, new ReadOutstanding.Request(), Cancellation))!;
        PlanBarge.Answer plan = (await site.Job<PlanBarge>().RunAsync(permit, new PlanBarge.Request(), null, null, Cancellation))!;
        using MemoryStream sent = new();
        await (await site.Job<ReadMapPiles>().RunAsync(permit, Cancellation)).WriteAsync(sent, Cancellation);
        JsonElement preamble = new DecodedPiles(sent.ToArray()).Preamble;
        int[][] map = preamble.TryGetProperty("waiting", out JsonElement pairs) ? [.. pairs.EnumerateArray().Select(pair => new[] { pair[0].GetInt32(), pair[1].GetInt32() })] : [];
        return ([.. left.Rows.Select(pile => pile.HeldBy)], plan.Held.Values.Sum(), plan.Piles.Count, map);
    }
}
