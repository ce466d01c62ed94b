using NodaTime;
using Shouldly;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Core.Tests.Treatment;
using Xunit;

namespace SiteProgress.Core.Tests.Design;

/// <summary>A pile is judged by the design in force when it was built; what changes later is told beside it and waits for a decision.</summary>
public sealed class RevisedDesignTests
{
    private static readonly Instant AfterBuilding = Instant.FromUtc(2026, 3, 15, 0, 0);
    private static readonly Instant BeforeBuilding = Instant.FromUtc(2026, 3, 1, 0, 0);

    private readonly RecordedSite site = new();

    public RevisedDesignTests() => site.Plan("A-1", "A-2", "A-3", "A-4");

    [Fact]
    public void A_pile_moved_after_it_was_built_stays_judged_by_its_old_place_and_is_marked()
    {
        site.Build("A-2", offMetres: 0.03);
        site.Revise(Changes(AfterBuilding), ("A-2", 4.2 + 0.4));

        DerivedPile pile = Pile("A-2");

        pile.Judgement.Position!.Deviation.RadialMetres.ShouldBe(0.03, 1e-6);
        pile.Judgement.State.ShouldBe(PileState.Installed);
        pile.Design.IsOpen.ShouldBeTrue();
        pile.Design.Line.ShouldBe("built by revision 1; revision 2: moved by dE 400 mm, dN 0 mm");
        site.Treated.ReadinessOf("A-2").Reason.ShouldContain("design was changed after it was built");
    }

    [Fact]
    public void A_pile_built_after_the_revision_is_judged_by_the_new_place()
    {
        site.Revise(Changes(BeforeBuilding), ("A-2", 4.2 + 0.4));
        site.Build("A-2", offMetres: 0.43);

        DerivedPile pile = Pile("A-2");

        pile.Judgement.Position!.Deviation.RadialMetres.ShouldBe(0.03, 1e-6);
        (pile.Design.JudgedBy, pile.Design.Change).ShouldBe((2, null));
    }

    [Fact]
    public void The_moment_the_casing_left_decides_which_of_two_revisions_holds()
    {
        long built = site.Build("A-2", offMetres: 0.03);
        Instant left = site.Derived.Installations.Single(one => one.Located.Sequence == built).Located.BuiltAt!.Value;
        site.Revise(Changes(left), ("A-2", 4.2 + 0.4)); // in force at that very moment: the new design

        Pile("A-2").Judgement.Position!.Deviation.RadialMetres.ShouldBe(0.37, 1e-6);

        RecordedSite other = new();
        other.Plan("A-1", "A-2");
        other.Build("A-2", offMetres: 0.03);
        other.Revise(Changes(left + Duration.FromMinutes(10)), ("A-2", 4.2 + 0.4));
        other.Derived.Piles.Single(pile => pile.Judgement.Pile.Number == "A-2").Judgement.Position!.Deviation.RadialMetres.ShouldBe(0.03, 1e-6);
    }

    [Fact]
    public void A_correction_of_the_schedule_from_the_beginning_judges_anew_and_marks_nothing()
    {
        site.Build("A-2", offMetres: 0.03);
        site.Revise(new DesignStatement(DesignScope.Amends, null), ("A-2", 4.2 + 0.4));

        Pile("A-2").Judgement.Position!.Deviation.RadialMetres.ShouldBe(0.37, 1e-6);
        Pile("A-2").Design.Change.ShouldBeNull();
    }

    [Fact]
    public void A_schedule_of_the_whole_zone_takes_out_what_it_does_not_name_and_what_was_built_there_stays()
    {
        site.Build("A-2");
        site.Revise(new DesignStatement(DesignScope.Zones, AfterBuilding, "B", ["A"]), ("A-1", 2.1), ("A-4", 8.4));

        DerivedSite derived = site.Derived;

        derived.Piles.Select(pile => pile.Judgement.Pile.Number).ShouldBe(["A-1", "A-2", "A-4"]);
        derived.Design!.Piles.Where(pile => pile.TakenOutBy is null).Select(pile => pile.Number).ShouldBe(["A-1", "A-4"]);
        Pile("A-2").Judgement.State.ShouldBe(PileState.Installed);
        Pile("A-2").Design.Line.ShouldBe("built by revision 1; revision 2: taken out of the design");
        derived.Installations.ShouldHaveSingleItem().Match.Outcome.ShouldBe(MatchOutcome.Matched);
    }

    [Fact]
    public void A_record_built_after_its_pile_was_taken_out_finds_nothing_planned()
    {
        site.Revise(new DesignStatement(DesignScope.Zones, BeforeBuilding, null, ["A"]), ("A-1", 2.1), ("A-4", 8.4));
        site.Build("A-2");

        site.Derived.Installations.ShouldHaveSingleItem().Match.Outcome.ShouldBe(MatchOutcome.NothingPlannedWithinReach);
        site.Derived.Piles.Count.ShouldBe(2);
    }

    [Fact]
    public void A_zone_that_a_schedule_does_not_speak_of_is_left_alone()
    {
        site.Revise(new DesignStatement(DesignScope.Zones, BeforeBuilding, null, ["Z"]), ("A-9", 40));

        site.Derived.Piles.Count.ShouldBe(5);
    }

    [Fact]
    public void A_renumbered_pile_keeps_what_was_built_and_decided_about_it()
    {
        site.Build("A-2");
        site.Accept("A-2");
        site.Revise(new DesignStatement(DesignScope.Site, AfterBuilding), ("A-1", 2.1), ("B-2", 4.2), ("A-3", 6.3), ("A-4", 8.4));

        DerivedPile pile = Pile("B-2");

        pile.Judgement.Standing.Count.ShouldBe(1);
        pile.Design.Change.ShouldBeNull();
        site.State("B-2").ShouldBe(PileState.Accepted);
        site.Treated.Find("A-2").ShouldBeNull();
        site.Derived.Installations.ShouldHaveSingleItem().Match.Adopted.ShouldBe("B-2");
    }

    [Fact]
    public void Numbers_that_go_round_among_piles_take_their_piles_along()
    {
        site.Build("A-1");
        site.Build("A-2", offMetres: 0.25); // beyond the limit
        int number = site.Raise("A-2");
        site.Revise(new DesignStatement(DesignScope.Site, AfterBuilding), ("A-2", 2.1), ("A-3", 4.2), ("A-1", 6.3), ("A-4", 8.4));

        (Pile("A-2").Judgement.State, Pile("A-3").Judgement.State, Pile("A-1").Judgement.State).ShouldBe((PileState.Installed, PileState.NonConformance, PileState.Outstanding));
        site.One(number).Piles().ShouldBe(["A-3"]);
        Pile("A-3").Judgement.Position!.Deviation.RadialMetres.ShouldBe(0.25, 1e-6);
    }

    [Fact]
    public void A_built_pile_taken_out_whose_number_another_got_keeps_a_number_of_its_own()
    {
        site.Build("A-2");
        site.Revise(new DesignStatement(DesignScope.Site, AfterBuilding), ("A-2", 6.3), ("A-1", 2.1)); // A-3 is A-2 now; the old are gone

        site.Derived.Piles.Select(pile => (pile.Judgement.Pile.Number, pile.Judgement.Standing.Count)).ShouldBe([("A-1", 0), ("A-2", 0), ("A-2 (rev 1)", 1)]);
    }

    [Fact]
    public void Keeping_as_built_takes_the_mark_away_until_the_design_changes_again()
    {
        site.Build("A-2");
        site.Revise(Changes(AfterBuilding), ("A-2", 4.6));
        Answer("A-2", DesignChangeAnswer.KeepAsBuilt, approve: true);

        (Pile("A-2").Design.IsOpen, Pile("A-2").Design.Answer).ShouldBe((false, DesignChangeAnswer.KeepAsBuilt));
        site.Treated.ReadinessOf("A-2").Reason.ShouldBe("");

        site.Revise(Changes(AfterBuilding + Duration.FromDays(1)), ("A-2", 4.9));
        Pile("A-2").Design.IsOpen.ShouldBeTrue();
    }

    [Fact]
    public void Holding_against_the_new_design_makes_a_finding_that_is_treated_like_any_other()
    {
        site.Build("A-2", offMetres: 0.03);
        site.Revise(Changes(AfterBuilding), ("A-2", 4.6));
        Answer("A-2", DesignChangeAnswer.HoldAgainstNewDesign, approve: true);

        Pile("A-2").Judgement.Checks.Single(check => check.Check == CheckName.Position).Verdict.ShouldBe(Verdict.NotMet);
        Pile("A-2").Design.IsOpen.ShouldBeFalse();
        site.Raise("A-2").ShouldBe(1);
    }

    [Fact]
    public void A_proposal_alone_or_one_sent_back_changes_nothing()
    {
        site.Build("A-2");
        site.Revise(Changes(AfterBuilding), ("A-2", 4.6));
        Answer("A-2", DesignChangeAnswer.KeepAsBuilt, approve: false);

        Pile("A-2").Design.IsOpen.ShouldBeTrue();
        site.Treated.DesignProposals.ShouldHaveSingleItem().IsApproved.ShouldBeFalse();
    }

    [Fact]
    public void A_withdrawn_revision_leaves_the_design_as_it_was_and_keeps_its_number()
    {
        site.Build("A-2");
        long batch = site.Revise(Changes(AfterBuilding), ("A-2", 4.6));
        site.Add(new BatchWithdrawnBody(batch, "not approved"));
        site.Revise(Changes(AfterBuilding), ("A-3", 6.8));

        Pile("A-2").Design.Change.ShouldBeNull();
        site.Derived.Design!.Revisions.Select(one => (one.Number, one.Counts)).ShouldBe([(1, true), (2, false), (3, true)]);
    }

    [Fact]
    public void What_a_schedule_says_again_stays_from_the_record_it_had()
    {
        site.Accept(Built());
        site.Revise(new DesignStatement(DesignScope.Zones, AfterBuilding, null, ["A"]), ("A-1", 2.1), ("A-2", 4.2), ("A-3", 6.3), ("A-4", 8.4), ("A-5", 10.5));

        site.State("A-2").ShouldBe(PileState.Accepted);
        site.Derived.Piles.Count.ShouldBe(5);
    }

    [Fact]
    public void A_pile_rebuilt_at_its_new_place_is_judged_there()
    {
        site.Build("A-2");
        site.Revise(Changes(BeforeBuilding + Duration.FromDays(10)), ("A-2", 4.8)); // the eleventh of March
        site.Build("A-2", offMetres: 0.62, change: built => built with { Start = Later(6), EndOfPenetration = Later(6), End = Later(7) });

        DerivedPile pile = Pile("A-2");

        pile.Judgement.Attempts.ShouldBe(2);
        pile.Judgement.Position!.Deviation.RadialMetres.ShouldBe(0.02, 1e-6);
        pile.Design.Change.ShouldBeNull();
    }

    private static Instant Later(int hour) => Instant.FromUtc(2026, 3, 12, hour, 0);

    private string Built()
    {
        site.Build("A-2");
        return "A-2";
    }

    private static DesignStatement Changes(Instant from) => new(DesignScope.Amends, from);

    private void Answer(string pile, DesignChangeAnswer answer, bool approve)
    {
        long proposal = site.Add(new DesignChangeProposedBody([new ChangedPile(pile, Pile(pile).Design.Line!)], answer, "as the designer wrote"));
        site.Add(new DesignChangeDecidedBody(proposal, approve, "seen"), "account owner");
    }

    private DerivedPile Pile(string number) => site.Derived.Piles.Single(pile => pile.Judgement.Pile.Number == number);
}
