using NodaTime;
using Shouldly;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Core.Treatment;
using Xunit;

namespace SiteProgress.Core.Tests.Treatment;

public sealed class NonConformanceTests
{
    private readonly RecordedSite _site = new();

    public NonConformanceTests()
    {
        _site.Plan("A-0001", "A-0002", "A-0003");
        _site.Build("A-0001", 0.20);
        _site.Build("A-0002");
    }

    [Fact]
    public void A_check_not_met_is_a_finding_until_it_is_gathered_into_a_non_conformance()
    {
        _site.State("A-0001").ShouldBe(PileState.Finding);
        _site.Treated.FreeFindings("A-0001").Single().Check.ShouldBe(CheckName.Position);

        int number = _site.Raise("A-0001");

        _site.One(number).Stage.ShouldBe(Stage.Raised);
        _site.State("A-0001").ShouldBe(PileState.NonConformance);
        _site.Treated.FreeFindings("A-0001").ShouldBeEmpty();
        _site.State("A-0002").ShouldBe(PileState.Installed);
    }

    [Fact]
    public void A_concession_accepts_the_pile_and_holds_only_for_the_finding_that_was_shown()
    {
        int number = _site.Raise("A-0001");
        _site.Propose(number, Disposition.UseAsIs);
        _site.One(number).Stage.ShouldBe(Stage.Proposed);
        _site.State("A-0001").ShouldBe(PileState.NonConformance);
        _site.Decide(number);

        _site.One(number).Stage.ShouldBe(Stage.Closed);
        _site.State("A-0001").ShouldBe(PileState.AcceptedWithConcession);

        _site.Build("A-0001", 0.35);

        NonConformance reopened = _site.One(number);
        reopened.Stage.ShouldBe(Stage.Reopened);
        reopened.Reopened!.ShouldContain("0.2000 m");
        reopened.Reopened!.ShouldContain("0.3500 m");
        _site.State("A-0001").ShouldBe(PileState.NonConformance);
        _site.Treated.Find("A-0001")!.Reopened!.ShouldContain("a later record changed what was signed");
    }

    [Fact]
    public void A_concession_does_not_accept_a_pile_with_another_finding()
    {
        _site.Build("A-0003", 0.20);
        int number = _site.Raise("A-0003");
        _site.Build("A-0003", 0.20, built => built with { SandInCasing = 40 });
        _site.Propose(number, Disposition.UseAsIs);
        _site.Decide(number);

        _site.State("A-0003").ShouldBe(PileState.Finding);
        _site.Treated.ReadinessOf("A-0003").Reason.ShouldBe("Finding: sand is not met.");
    }

    [Fact]
    public void A_proposal_sent_back_waits_for_another()
    {
        int number = _site.Raise("A-0001");
        _site.Propose(number, Disposition.UseAsIs);
        _site.Decide(number, approve: false);

        _site.One(number).Stage.ShouldBe(Stage.Returned);
        _site.State("A-0001").ShouldBe(PileState.NonConformance);

        _site.Propose(number, Disposition.InstallAgain);
        _site.One(number).Stage.ShouldBe(Stage.Proposed);
    }

    [Fact]
    public void A_pile_to_be_installed_again_is_built_again_until_its_new_installation_is_verified()
    {
        int number = _site.Raise("A-0001");
        _site.Propose(number, Disposition.InstallAgain);
        _site.Decide(number);
        _site.State("A-0001").ShouldBe(PileState.BuildAgain);

        _site.Build("A-0001");
        _site.One(number).Stage.ShouldBe(Stage.ToVerify);
        _site.State("A-0001").ShouldBe(PileState.NonConformance);

        _site.Verify(number);
        _site.One(number).Stage.ShouldBe(Stage.Closed);
        _site.State("A-0001").ShouldBe(PileState.Installed);
        _site.Accept("A-0001");
        _site.State("A-0001").ShouldBe(PileState.Accepted);
    }

    [Fact]
    public void A_pile_installed_again_and_still_off_reopens_the_non_conformance()
    {
        int number = _site.Raise("A-0001");
        _site.Propose(number, Disposition.InstallAgain);
        _site.Decide(number);
        _site.Build("A-0001", 0.25);

        _site.One(number).Stage.ShouldBe(Stage.Reopened);
        _site.State("A-0001").ShouldBe(PileState.NonConformance);
    }

    [Fact]
    public void A_repair_closes_on_evidence_that_is_verified_and_the_pile_then_waits_for_its_acceptance()
    {
        int number = _site.Raise("A-0001");
        _site.Propose(number, Disposition.RepairInPlace);
        _site.Decide(number);
        _site.One(number).Stage.ShouldBe(Stage.Approved);
        _site.Evidence(number);
        _site.One(number).Stage.ShouldBe(Stage.ToVerify);
        _site.Verify(number, verified: false);
        _site.One(number).Stage.ShouldBe(Stage.Approved);
        _site.Evidence(number);
        _site.Verify(number);

        _site.One(number).Stage.ShouldBe(Stage.Closed);
        _site.State("A-0001").ShouldBe(PileState.NonConformance);
        _site.Treated.ReadinessOf("A-0001").Readiness.ShouldBe(Readiness.Ready);
        _site.Accept("A-0001");
        _site.State("A-0001").ShouldBe(PileState.AcceptedWithConcession);
    }

    [Fact]
    public void An_additional_pile_is_planned_and_the_original_closes_only_when_it_is_accepted()
    {
        int number = _site.Raise("A-0001");
        _site.Propose(number, Disposition.AdditionalPile, new AdditionalPile("A-0001-X", "A-0001", 3.15, 50));
        _site.Derived.Piles.ShouldNotContain(pile => pile.Judgement.Pile.Number == "A-0001-X");
        _site.Decide(number);

        DerivedPile planned = _site.Derived.Piles.Single(pile => pile.Judgement.Pile.Number == "A-0001-X");
        planned.Judgement.State.ShouldBe(PileState.Outstanding);
        planned.Judgement.Pile.Position.XMetres.ShouldBe(3.15);
        planned.Treatment.Replaces.ShouldBe("A-0001");
        _site.Treated.Find("A-0001")!.ReplacedBy.ShouldBe("A-0001-X");
        _site.One(number).Stage.ShouldBe(Stage.Approved);

        _site.Build("A-0001-X", atX: 3.15);
        _site.State("A-0001-X").ShouldBe(PileState.Installed);
        _site.One(number).Stage.ShouldBe(Stage.Approved);

        _site.Accept("A-0001-X");
        _site.One(number).Stage.ShouldBe(Stage.ToVerify);
        _site.State("A-0001").ShouldBe(PileState.NonConformance);
        _site.Verify(number);
        _site.One(number).Stage.ShouldBe(Stage.Closed);
        _site.State("A-0001").ShouldBe(PileState.Cancelled);
    }

    [Fact]
    public void A_finding_that_a_correction_takes_away_waits_for_its_closure_to_be_verified()
    {
        int number = _site.Raise("A-0001");
        _site.Build("A-0001");

        _site.One(number).FindingsGone.ShouldBeTrue();
        _site.One(number).Stage.ShouldBe(Stage.ToVerify);
        _site.Verify(number);
        _site.State("A-0001").ShouldBe(PileState.Installed);
    }

    [Fact]
    public void The_due_date_set_last_holds_and_every_step_is_kept()
    {
        int number = _site.Raise("A-0001");
        _site.Add(new DueDateSetBody(number, new LocalDate(2026, 4, 2), "weather"));
        _site.Add(new CommentMadeBody(number, "seen on site"));

        _site.One(number).DueOn.ShouldBe(new LocalDate(2026, 4, 2));
        _site.One(number).Steps.Count.ShouldBe(3);
    }
}
