using Shouldly;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Core.Treatment;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Piles;
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

        await site.RecordAsync(Role.Surveyor, [.. TestSite.BuiltRow(1, "again").Select(body => body is PileInstalledBody built ? built with { Installation = built.Installation with { SandInCasing = 72 } } : body)]);

        (await site.StateAsync(0)).ShouldBe(PileState.Installed);
        (await site.Job<CountWaiting>().RunAsync(owner, Cancellation)).PilesReopened.ShouldBe(1);
        (await site.Job<ReadPileTreatment>().RunAsync(owner, "A-0001", Cancellation))!.Treatment.Reopened.ShouldNotBeNull();
    }

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

        (await keep.ReleaseAsync(owner, number, "", seen, Cancellation)).Refusal.ShouldBeNull();
        (await site.Job<ReadHoldPoints>().RunAsync(owner, Cancellation)).All.Single().Point.IsOpen().ShouldBeTrue();
        (await keep.SignAsSurveyorAsync(surveyor, number, "", seen, Cancellation)).Refusal.ShouldBeNull();
        (await site.Job<ReadHoldPoints>().RunAsync(owner, Cancellation)).All.Single().Point.IsOpen().ShouldBeFalse();
        (await site.Job<CountWaiting>().RunAsync(owner, Cancellation)).HoldPoints.ShouldBeEmpty();
    }
}
