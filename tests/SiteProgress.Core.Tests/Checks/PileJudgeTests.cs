using NodaTime;
using Shouldly;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using Xunit;

namespace SiteProgress.Core.Tests.Checks;

public sealed class PileJudgeTests
{
    private static readonly PlannedPile Pile = Invented.Planned("A-0001", 100, 50);

    [Fact]
    public void A_pile_built_as_designed_is_installed()
    {
        PileJudgement judgement = Judge(Invented.Built("A-0001", 100.03, 50.04));

        judgement.State.ShouldBe(PileState.Installed);
        judgement.Position!.Deviation.RadialMetres.ShouldBe(0.05, 1e-9);
        judgement.Position.Deviation.EastMetres.ShouldBe(0.03, 1e-9);
        judgement.LengthMetres!.Value.ShouldBe(18.1, 1e-9);
        judgement.Checks.Single(check => check.Check == CheckName.LeastDiameter).Verdict.ShouldBe(Verdict.NotJudged);
    }

    [Fact]
    public void Nothing_stands_for_a_pile_without_attempts()
        => PileJudge.Judge(Pile, [], Invented.Contract()).State.ShouldBe(PileState.Outstanding);

    [Fact]
    public void Each_axis_within_150_mm_is_not_within_150_mm_radial()
    {
        // NHBC Standards 2020, 4.5.10 counts "in any direction": 120 mm and 120 mm are 169.7 mm.
        CheckResult position = Check(Invented.Built("A-0001", 100.120, 50.120), CheckName.Position);

        position.Verdict.ShouldBe(Verdict.NotMet);
        position.Value!.Value.ShouldBe(0.1697, 5e-5);
    }

    [Theory]
    [InlineData(0.1500, Verdict.Met)]
    [InlineData(0.1504, Verdict.NotMet)]
    public void The_limit_is_held_against_the_unrounded_value(double offset, Verdict verdict)
    {
        // 0.1504 m is shown as 150 mm and is still beyond the limit.
        CheckResult position = PileJudge.Judge(
            Invented.Planned("A-0001", 0, 50), [Invented.Located(Invented.Built("A-0001", offset, 50))], Invented.Contract())
            .Checks.Single(check => check.Check == CheckName.Position);

        position.Verdict.ShouldBe(verdict);
        position.NearLimit.ShouldBeTrue();
    }

    [Theory]
    [InlineData(FixType.RtkFloat)]
    [InlineData(FixType.Differential)]
    [InlineData(FixType.Autonomous)]
    [InlineData(null)]
    public void A_fix_other_than_RTK_fixed_is_not_judged(FixType? fix)
    {
        PileJudgement judgement = Judge(Invented.Built("A-0001", 100.01, 50) with { Fix = fix });

        judgement.Checks[0].Verdict.ShouldBe(Verdict.NotJudged);
        judgement.State.ShouldBe(PileState.IncompleteRecord);
    }

    [Fact]
    public void Of_touch_down_and_end_of_penetration_the_farther_one_governs()
    {
        JudgedPosition position = Judge(Invented.Built("A-0001", 100.02, 50) with
        {
            TouchDown = new RecordedPosition(Frame.SiteGrid, 100.00, 50.16),
        }).Position!;

        position.Moment.ShouldBe(PositionMoment.TouchDown);
        position.Deviation.RadialMetres.ShouldBe(0.16, 1e-9);
    }

    [Theory]
    [InlineData(-30.5, Verdict.Met)]
    [InlineData(-30.6, Verdict.Met)]
    [InlineData(-30.49, Verdict.NotMet)]
    public void The_tip_must_reach_the_design_level(double tip, Verdict verdict)
        => Check(Invented.Built("A-0001", 100, 50) with { TipLevelMetres = tip }, CheckName.Tip).Verdict.ShouldBe(verdict);

    [Theory]
    [InlineData(0.02, 18.0, Verdict.Met)]
    [InlineData(0.08, 18.0, Verdict.NotMet)]
    [InlineData(0.02, 18.2, Verdict.NotMet)]
    [InlineData(null, 18.0, Verdict.NotJudged)]
    public void A_stop_criterion_needs_the_rate_and_the_least_length(double? rate, double leastLength, Verdict verdict)
    {
        Zone zone = Invented.ZoneA with { TipRule = TipRule.Criterion, StopPenetrationRateMetresPerMinute = 0.05, TipLevelMetres = null };
        PileJudgement judgement = PileJudge.Judge(
            Invented.Planned("A-0001", 100, 50, leastLength) with { TipLevelMetres = null },
            [Invented.Located(Invented.Built("A-0001", 100, 50) with { StopRateMetresPerMinute = rate })],
            Invented.Contract(zone));

        judgement.Checks.Single(check => check.Check == CheckName.Tip).Verdict.ShouldBe(verdict);
    }

    [Fact]
    public void Sand_in_pile_is_sand_in_casing_times_C_against_the_design_of_the_built_length()
    {
        // 2.0 m pile: 3.1416 m3 a metre; 18.1 m need 56.863 m3 in the pile, 71.079 m3 loose at C = 0.8.
        CheckResult enough = Check(Invented.Built("A-0001", 100, 50) with { SandInCasing = 71.079 * 0.9501 }, CheckName.Sand);
        CheckResult shortOf = Check(Invented.Built("A-0001", 100, 50) with { SandInCasing = 71.079 * 0.9499 }, CheckName.Sand);

        enough.Verdict.ShouldBe(Verdict.Met);
        shortOf.Verdict.ShouldBe(Verdict.NotMet);
        enough.Value!.Value.ShouldBe(0.9501, 1e-5);
    }

    [Theory]
    [InlineData(-12.10, Verdict.Met)]
    [InlineData(-12.71, Verdict.NotMet)]
    [InlineData(-12.09, Verdict.NotMet)]
    public void The_top_may_differ_either_way(double top, Verdict verdict)
        => Check(Invented.Built("A-0001", 100, 50) with { TopLevelMetres = top }, CheckName.Top).Verdict.ShouldBe(verdict);

    [Fact]
    public void Blank_is_missing_and_never_zero()
    {
        PileJudgement judgement = Judge(Invented.Built("A-0001", 100, 50) with { SandInCasing = null, TipLevelMetres = null });

        judgement.Checks.Where(check => check.Required && check.Verdict == Verdict.NotJudged).Select(check => check.Check)
            .ShouldBe([CheckName.Tip, CheckName.Sand]);
        judgement.State.ShouldBe(PileState.IncompleteRecord);
        judgement.Sand!.InPile.ShouldBeNull();
    }

    [Fact]
    public void An_interrupted_attempt_stands_for_what_the_later_one_did_not_build_again()
    {
        Installation lower = Invented.Built("A-0001", 100, 50) with { Outcome = Outcome.Interrupted, TopLevelMetres = -20.5, SandInCasing = 40 };
        Installation upper = Later(Invented.Built("A-0001", 100.05, 50), 3) with { TipLevelMetres = -21.5, SandInCasing = 36 };

        PileJudgement judgement = Judge(lower, upper);

        judgement.Standing.Count.ShouldBe(2);
        judgement.AsBuiltTipLevelMetres.ShouldBe(-30.5);
        judgement.AsBuiltTopLevelMetres.ShouldBe(-12.4);
        judgement.LengthMetres!.Value.ShouldBe(18.1, 1e-9);
        judgement.Sand!.InCasingUsed.ShouldBe(76);
        judgement.Sand.InCasingStanding!.Value.ShouldBe(36 + (40 * 9.0 / 10.0), 1e-9);
    }

    [Fact]
    public void An_interrupted_attempt_alone_stands_for_what_it_built_and_its_top_is_a_finding()
    {
        PileJudgement judgement = Judge(Invented.Built("A-0001", 100, 50) with { Outcome = Outcome.Interrupted, TopLevelMetres = -20.5, SandInCasing = 40 });

        judgement.State.ShouldBe(PileState.Finding);
        judgement.LengthMetres!.Value.ShouldBe(10, 1e-9);
        judgement.Checks.Where(check => check.Verdict == Verdict.NotMet).Select(check => check.Check).ShouldBe([CheckName.Top]);
    }

    [Fact]
    public void An_abandoned_attempt_leaves_the_pile_outstanding()
    {
        PileJudgement judgement = Judge(Invented.Built("A-0001", 100, 50) with { Outcome = Outcome.Abandoned });

        judgement.State.ShouldBe(PileState.Outstanding);
        judgement.Attempts.ShouldBe(1);
    }

    [Fact]
    public void After_an_abandoned_attempt_the_later_one_stands_alone()
    {
        PileJudgement judgement = Judge(
            Invented.Built("A-0001", 100.4, 50) with { Outcome = Outcome.Abandoned },
            Later(Invented.Built("A-0001", 100, 50), 5));

        judgement.State.ShouldBe(PileState.Installed);
        judgement.Standing.ShouldHaveSingleItem();
    }

    [Fact]
    public void A_pile_offset_by_instruction_is_not_judged_by_its_design_position()
    {
        PileJudgement judgement = Judge(Invented.Built("A-0001", 101.5, 50) with { Outcome = Outcome.OffsetByInstruction });

        judgement.Checks[0].Verdict.ShouldBe(Verdict.NotJudged);
        judgement.Checks[0].Reason.ShouldContain("instruction");
    }

    [Fact]
    public void Times_out_of_order_are_a_finding()
        => Check(Invented.Built("A-0001", 100, 50) with { EndOfPenetration = Instant.FromUtc(2026, 3, 10, 7, 0) }, CheckName.Times)
            .Verdict.ShouldBe(Verdict.NotMet);

    private static Installation Later(Installation built, int hours) => built with
    {
        RecordId = built.RecordId + "-later",
        Start = built.Start + Duration.FromHours(hours),
        EndOfPenetration = built.EndOfPenetration + Duration.FromHours(hours),
        End = built.End + Duration.FromHours(hours),
    };

    private static PileJudgement Judge(params Installation[] attempts)
        => PileJudge.Judge(Pile, attempts.Select((one, index) => Invented.Located(one, 10 + index)).ToArray<LocatedInstallation>(), Invented.Contract());

    private static CheckResult Check(Installation attempt, CheckName check)
        => Judge(attempt).Checks.Single(result => result.Check == check);
}
