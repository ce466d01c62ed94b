using Shouldly;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using Xunit;

namespace SiteProgress.Core.Tests.Matching;

public sealed class NumberAndPositionTests
{
    private static readonly PlannedPile[] Row = Enumerable.Range(0, 10)
        .Select(index => Invented.Planned($"A-{index:0000}", index * 2.1, 0)).ToArray();

    [Fact]
    public void Number_and_position_that_agree_are_adopted()
    {
        InstallationMatch match = Settle(Invented.Built("A-0003", (3 * 2.1) + 0.12, -0.05));

        match.Outcome.ShouldBe(MatchOutcome.Matched);
        match.Adopted.ShouldBe("A-0003");
        match.DistanceToNamedMetres!.Value.ShouldBe(0.13, 1e-9);
    }

    [Fact]
    public void Capital_and_small_letters_are_one()
        => Settle(Invented.Built("a-0003", 3 * 2.1, 0)).Adopted.ShouldBe("A-0003");

    [Fact]
    public void A_number_that_contradicts_the_position_waits_for_a_person()
    {
        // trade-facts: an as-built of B07 that lies 0.03 m from B08 is not "2.07 m out", its number contradicts its position.
        InstallationMatch match = Settle(Invented.Built("A-0003", (4 * 2.1) + 0.03, 0));

        match.Outcome.ShouldBe(MatchOutcome.NumberContradictsPosition);
        match.Adopted.ShouldBeNull();
        match.Nearest.ShouldBe("A-0004");
        match.WaitsForDecision.ShouldBeTrue();
    }

    [Fact]
    public void Exactly_half_a_spacing_away_is_still_within_reach()
        => Settle(Invented.Built("A-0000", -1.05, 0)).Outcome.ShouldBe(MatchOutcome.Matched);

    [Fact]
    public void Just_beyond_half_a_spacing_is_not()
        => Settle(Invented.Built("A-0000", -1.0501, 0)).Outcome.ShouldBe(MatchOutcome.NothingPlannedWithinReach);

    [Fact]
    public void A_number_nobody_planned_names_the_pile_it_lies_at()
    {
        InstallationMatch match = Settle(Invented.Built("X-9", 2.1, 0));

        match.Outcome.ShouldBe(MatchOutcome.UnknownNumber);
        match.Nearest.ShouldBe("A-0001");
    }

    [Fact]
    public void Without_a_position_nothing_is_adopted()
        => Settle(Invented.Built("A-0001", 0, 0) with { TouchDown = null, AtEndOfPenetration = null }).Outcome.ShouldBe(MatchOutcome.NoPosition);

    [Fact]
    public void A_trial_pile_outside_the_design_waits_for_nobody()
    {
        InstallationMatch match = Settle(Invented.Built("T-01", 50, 50) with { Outcome = Outcome.Trial });

        match.Outcome.ShouldBe(MatchOutcome.Trial);
        match.WaitsForDecision.ShouldBeFalse();
    }

    [Fact]
    public void An_instructed_offset_is_adopted_up_to_one_spacing()
    {
        Settle(Invented.Built("A-0009", (9 * 2.1) + 1.5, 0) with { Outcome = Outcome.OffsetByInstruction })
            .ShouldSatisfyAllConditions(
                match => match.Outcome.ShouldBe(MatchOutcome.OffsetByInstruction),
                match => match.Adopted.ShouldBe("A-0009"));
        Settle(Invented.Built("A-0009", (9 * 2.1) + 2.5, 0) with { Outcome = Outcome.OffsetByInstruction }).Adopted.ShouldBeNull();
    }

    [Fact]
    public void The_same_content_under_another_identifier_is_a_duplicate_of_the_earlier()
    {
        Installation first = Invented.Built("A-0003", 3 * 2.1, 0);
        IReadOnlyList<InstallationMatch> matches = Settle([Invented.Located(first, 11), Invented.Located(first with { RecordId = "other" }, 12)]);

        matches[0].Outcome.ShouldBe(MatchOutcome.Matched);
        matches[1].Outcome.ShouldBe(MatchOutcome.DuplicateRecord);
        matches[1].SameAs.ShouldBe(11);
    }

    [Fact]
    public void The_same_identifier_with_other_content_is_a_problem_not_a_duplicate()
    {
        Installation first = Invented.Built("A-0003", 3 * 2.1, 0);
        IReadOnlyList<InstallationMatch> matches = Settle([Invented.Located(first, 11), Invented.Located(first with { TipLevelMetres = -29 }, 12)]);

        matches[1].Outcome.ShouldBe(MatchOutcome.IdentifierReused);
        matches[1].WaitsForDecision.ShouldBeTrue();
    }

    [Fact]
    public void The_order_of_the_list_changes_nothing()
    {
        LocatedInstallation[] installations = Enumerable.Range(0, 10)
            .Select(index => Invented.Located(Invented.Built($"A-{(index * 7) % 10:0000}", (index * 7 % 10 * 2.1) + (index * 0.2), 0.1), 100 + index))
            .ToArray();
        IReadOnlyList<InstallationMatch> forward = Settle(installations);
        IReadOnlyList<InstallationMatch> backward = Settle(installations.Reverse().ToArray());

        backward.Reverse().ShouldBe(forward);
    }

    private static InstallationMatch Settle(Installation installation) => Settle([Invented.Located(installation)])[0];

    private static IReadOnlyList<InstallationMatch> Settle(LocatedInstallation[] installations)
        => NumberAndPosition.Settle(installations, new DesignIndex(Row, Invented.Settings));
}
