using Shouldly;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Sites;
using SiteProgress.Jobs.Treatment;
using SiteProgress.Jobs.Verification;
using Xunit;

namespace SiteProgress.Jobs.Tests.Treatment;

/// <summary>Who decides what, and what happens when two do.</summary>
public sealed class DecisionTests(JobsDatabase database) : IClassFixture<JobsDatabase>
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_surveyor_proposes_the_owners_representative_approves_and_the_pile_is_accepted_with_a_concession()
    {
        await using TestSite site = await TreatedSites.OpenAsync(database, 1);
        int number = await site.RaiseAsync(1);
        (await site.ProposeAsync(number, Disposition.UseAsIs)).Refusal.ShouldBeNull();
        (await site.StateAsync(1)).ShouldBe(PileState.NonConformance);
        CountWaiting.Counts before = await site.Job<CountWaiting>().RunAsync(await site.PermitAsync(Role.ProjectManager), Cancellation);
        before.ProposalsToDecide.ShouldBe(1);

        (await site.DecideAsync(number)).Refusal.ShouldBeNull();

        (await site.StateAsync(1)).ShouldBe(PileState.AcceptedWithConcession);
        (await site.Job<CountWaiting>().RunAsync(await site.PermitAsync(Role.ProjectManager), Cancellation)).ProposalsToDecide.ShouldBe(0);
        SiteVerification verified = (await site.Job<VerifySite>().RunAsync(site.Code, Cancellation)).ShouldNotBeNull();
        verified.ChainBreak.ShouldBeNull();
        verified.Tables.ShouldAllBe(table => table.Identical);
    }

    [Fact]
    public async Task Nobody_decides_their_own_proposal_even_with_the_role_for_it()
    {
        await using TestSite site = await TreatedSites.OpenAsync(database, 1);
        int number = await site.RaiseAsync(1);
        await site.ProposeAsync(number, Disposition.UseAsIs);
        string seen = await site.SeenAsync(number);

        // The surveyor becomes the owner's representative: the role would allow it, the person does not.
        await site.Job<GrantRole>().RunAsOperatorAsync(site.Code, site.People[Role.Surveyor], Role.OwnersRepresentative, Cancellation);
        AccessRefusedException refused = await Should.ThrowAsync<AccessRefusedException>(async () =>
            await site.Job<DecideDisposition>().RunAsync(await site.PermitAsync(Role.Surveyor), number, true, "", seen, Cancellation));

        RoleWords.Refusal(refused).ShouldBe("You made this proposal yourself. Somebody else decides; nothing was recorded.");
        (await site.StateAsync(1)).ShouldBe(PileState.NonConformance);
    }

    [Theory]
    [InlineData(Role.Surveyor)]
    [InlineData(Role.ProjectManager)]
    [InlineData(Role.Administrator)]
    public async Task A_role_that_may_not_decide_is_refused_before_anything_is_read(Role role)
    {
        await using TestSite site = await TreatedSites.OpenAsync(database);
        Permit permit = await site.PermitAsync(role);

        await Should.ThrowAsync<AccessRefusedException>(() => site.Job<DecideDisposition>().RunAsync(permit, 1, true, "", "", Cancellation));
        await Should.ThrowAsync<AccessRefusedException>(() => site.Job<VerifyClosure>().RunAsync(permit, 1, true, "", "", Cancellation));
        await Should.ThrowAsync<AccessRefusedException>(() => site.Job<AcceptPiles>().OneAsync(permit, "A-0001", "", "", Cancellation));
        await Should.ThrowAsync<AccessRefusedException>(() => site.Job<AcceptPiles>().LotAsync(permit, 1, "", "", Cancellation));
        await Should.ThrowAsync<AccessRefusedException>(() => site.Job<KeepHoldPoints>().ReleaseAsync(permit, 1, "", "", Cancellation));
    }

    [Fact]
    public async Task Of_two_who_decide_at_once_the_second_is_told_and_nothing_is_overwritten()
    {
        await using TestSite site = await TreatedSites.OpenAsync(database, 1);
        Guid second = Guid.NewGuid();
        await site.Job<GrantRole>().RunAsOperatorAsync(site.Code, second, Role.OwnersRepresentative, Cancellation);
        int number = await site.RaiseAsync(1);
        await site.ProposeAsync(number, Disposition.UseAsIs);
        string seen = await site.SeenAsync(number);
        Permit one = await site.PermitAsync(Role.OwnersRepresentative);
        Permit other = (await site.Job<Gate>().EnterAsync(second, site.Code, Cancellation)).ShouldNotBeNull();

        TreatmentAnswer[] answers = await Task.WhenAll(
            site.Job<DecideDisposition>().RunAsync(one, number, true, "yes", seen, Cancellation),
            site.Job<DecideDisposition>().RunAsync(other, number, false, "no", seen, Cancellation));

        answers.Count(answer => answer.Refusal is null).ShouldBe(1);
        TreatmentAnswer told = answers.Single(answer => answer.Refusal is not null);
        told.Conflict.ShouldBeTrue();
        told.Refusal!.ShouldContain("changed this after you opened it");
        (await site.OneAsync<long>("select count(*) from record.site_record r join record.site s on s.site = r.site where s.code = $1 and r.kind = $2", site.Code, (short)RecordKind.DispositionDecided)).ShouldBe(1);
    }

    [Fact]
    public async Task A_decision_on_what_a_later_record_changed_is_refused()
    {
        await using TestSite site = await TreatedSites.OpenAsync(database, 1);
        int number = await site.RaiseAsync(1);
        await site.ProposeAsync(number, Disposition.UseAsIs);
        string seen = await site.SeenAsync(number);
        await site.RecordAsync(Role.Surveyor, TestSite.BuiltRow(8, "again"));

        TreatmentAnswer answer = await site.Job<DecideDisposition>().RunAsync(await site.PermitAsync(Role.OwnersRepresentative), number, true, "", seen, Cancellation);

        answer.Conflict.ShouldBeTrue();
    }

    [Theory]
    [InlineData("A-0002", 4.2, 0, "There is a pile A-0002 already")]
    [InlineData("A-00 X", 4.2, 0, "'A-00 X' is no pile number of this site")]
    [InlineData("A-0002-X", 400, 0, "A-0002-X would stand")]
    [InlineData("A-0002-X", double.NaN, 0, "A-0002-X would stand")]
    public async Task An_additional_pile_that_cannot_be_planned_is_refused_with_the_reason(string number, double x, double y, string reason)
    {
        await using TestSite site = await TreatedSites.OpenAsync(database, 1);
        int raised = await site.RaiseAsync(1);

        TreatmentAnswer answer = await site.ProposeAsync(raised, Disposition.AdditionalPile, Role.Surveyor, new AdditionalPile(number, TestSite.Number(1), x, y));

        answer.Refusal!.ShouldContain(reason);
    }

    [Fact]
    public async Task A_sand_account_that_is_no_finding_and_a_pile_under_the_name_of_one_are_refused_with_the_reason()
    {
        await using TestSite site = await TreatedSites.OpenAsync(database, 1);
        SandAccountName account = new("Tern", "Pit 1", NodaTime.Instant.FromUtc(2026, 3, 1, 5, 0), NodaTime.Instant.FromUtc(2026, 3, 8, 5, 0));
        RaiseNonConformance raise = site.Job<RaiseNonConformance>();
        Permit surveyor = await site.PermitAsync(Role.Surveyor);

        (await raise.RunAsync(surveyor, [new FindingName("", CheckName.SandAccount, account)], "sand is missing", null, Cancellation)).Refusal!
            .ShouldStartWith("The sand account of Tern, Pit 1, 2026-03-01T05:00Z to 2026-03-08T05:00Z is no finding that waits for treatment");
        (await raise.RunAsync(surveyor, [new FindingName(TestSite.Number(1), CheckName.SandAccount)], "sand is missing", null, Cancellation)).Refusal!
            .ShouldContain("is no finding that waits for treatment");
    }

    [Fact]
    public async Task Several_additional_piles_are_planned_by_one_proposal_and_each_needs_a_number_of_its_own()
    {
        await using TestSite site = await TreatedSites.OpenAsync(database, 1, 2);
        int number = await site.RaiseAsync(1, 2);
        AdditionalPile one = new("A-0001-X", TestSite.Number(1), 3.15, 0), other = new("A-0002-X", TestSite.Number(2), 5.25, 0);

        (await site.ProposeAsync(number, Disposition.AdditionalPile, Role.Surveyor, one, other with { Number = "A-0001-X" })).Refusal!.ShouldContain("There is a pile A-0001-X already");
        (await site.ProposeAsync(number, Disposition.AdditionalPile, Role.Surveyor, one, other)).Refusal.ShouldBeNull();
        (await site.DecideAsync(number)).Refusal.ShouldBeNull();

        (await site.OneAsync<long>("select count(*) from derived.pile p join record.site s on s.site = p.site where s.code = $1 and p.replaces is not null", site.Code)).ShouldBe(2);
    }

    [Fact]
    public async Task A_concession_needs_the_designers_reference()
    {
        await using TestSite site = await TreatedSites.OpenAsync(database, 1);
        int number = await site.RaiseAsync(1);

        TreatmentAnswer answer = await site.Job<ProposeDisposition>().RunAsync(
            await site.PermitAsync(Role.Surveyor), number, new(Disposition.UseAsIs, "small", " ", null), await site.SeenAsync(number), Cancellation);

        answer.Refusal.ShouldBe("The designer's reference is missing; it is kept with the record.");
    }
}
