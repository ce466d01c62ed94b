using NodaTime;
using Shouldly;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Logs;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using Xunit;

namespace SiteProgress.Core.Tests.Checks;

/// <summary>What is judged by a log, and what is missing where there is none.</summary>
public sealed class LogChecksTests
{
    private static readonly LogFigures Good = new(
        null, 1200, -30.5, -12.4, 900, 2700, 15, 30, 0.3, 71, 75, new LeastDiameter(1.9, 1.86, 1.94, -20, -19), new MetreAgainstDesign(-20, -19, 0.93), 0, null, null, 0, 0, []);

    [Fact]
    public void Without_a_log_diameter_and_continuity_are_not_judged()
    {
        foreach (CheckName check in new[] { CheckName.LeastDiameter, CheckName.Continuity })
            Check(null, check).ShouldSatisfyAllConditions(one => one.Verdict.ShouldBe(Verdict.NotJudged), one => one.Reason.ShouldBe("There is no log of the sand along the pile."));
    }

    [Fact]
    public void Without_a_limit_in_the_contract_they_are_not_judged_and_say_so()
    {
        PileJudgement judged = Judge(Good, Invented.ZoneA);

        judged.Checks.Single(one => one.Check == CheckName.LeastDiameter).Reason.ShouldStartWith("The contract sets no limit");
        judged.Checks.Single(one => one.Check == CheckName.Continuity).Reason.ShouldStartWith("The contract sets no limit");
    }

    [Theory]
    [InlineData(1.80, Verdict.Met)] // 2.0 x (1 - 0.1), met when equal
    [InlineData(1.79, Verdict.NotMet)]
    public void The_least_diameter_is_held_against_the_share_that_may_be_missing(double least, Verdict verdict)
    {
        CheckResult check = Check(Good with { Least = new LeastDiameter(least, least - 0.02, least + 0.02, -20, -19) }, CheckName.LeastDiameter);

        (check.Verdict, check.Value, check.NearLimit).ShouldBe((verdict, least, true));
        check.Limit!.Value.ShouldBe(1.8, 1e-9);
        check.Reason.ShouldContain("from -20.00 m to -19.00 m by the log of record 77");
    }

    [Fact]
    public void A_limit_outside_the_interval_is_not_near() => Check(Good, CheckName.LeastDiameter).NearLimit.ShouldBeFalse();

    [Fact]
    public void A_log_that_tells_nothing_leaves_them_not_judged_with_its_reason()
        => Check(LogFigures.Refused("The log has only 7 samples."), CheckName.LeastDiameter).Reason.ShouldBe("The log of record 77 does not tell it: The log has only 7 samples.");

    [Theory]
    [InlineData(0.30, Verdict.Met)]
    [InlineData(0.31, Verdict.NotMet)]
    public void An_open_hang_up_longer_than_the_limit_is_a_gap(double metres, Verdict verdict)
        => Check(Good with { OpenHangUpMetres = metres, OpenHangUpLevelMetres = -21.3 }, CheckName.Continuity).Verdict.ShouldBe(verdict);

    [Fact]
    public void Too_little_sand_above_the_tip_is_a_finding_and_a_hidden_stretch_is_not_judged()
    {
        Check(Good with { LowestCover = new LowCover(-20, -19.2, 14) }, CheckName.Continuity).ShouldSatisfyAllConditions(
            one => one.Verdict.ShouldBe(Verdict.NotMet), one => one.Value!.Value.ShouldBe(0.8, 1e-9), one => one.Reason.ShouldContain("For 14 s the sand stood too low"));
        Check(Good with { GapSeconds = 92 }, CheckName.Continuity).ShouldSatisfyAllConditions(one => one.Verdict.ShouldBe(Verdict.NotJudged), one => one.Reason.ShouldContain("a break of 92 s"));
        Check(Good with { StuckMetres = 2.2 }, CheckName.Continuity).ShouldSatisfyAllConditions(one => one.Verdict.ShouldBe(Verdict.NotJudged), one => one.Reason.ShouldContain("went 2.2 m"));
        Check(Good with { StuckMetres = 2.2, OpenHangUpMetres = 1 }, CheckName.Continuity).Verdict.ShouldBe(Verdict.NotMet);
        Check(Good with { NotExcluded = new NotExcludedHangUp(-22, -18.5, 0.61) }, CheckName.Continuity).ShouldSatisfyAllConditions(
            one => one.Verdict.ShouldBe(Verdict.NotJudged),
            one => one.Reason.ShouldBe("While the sand gauge saw nothing, from -22.00 m to -18.50 m by the log of record 77, a hang-up of up to 0.61 m is not excluded, and no later pass went below it."));
        Check(Good with { NotExcluded = new NotExcludedHangUp(-22, -18.5, 0.29) }, CheckName.Continuity).Verdict.ShouldBe(Verdict.Met);
    }

    [Fact]
    public void A_metre_with_too_little_sand_is_a_finding_of_sand_although_the_whole_is_enough()
    {
        CheckResult thin = Check(Good with { Thinnest = new MetreAgainstDesign(-20, -19, 0.79) }, CheckName.Sand);

        (thin.Verdict, thin.Value).ShouldBe((Verdict.NotMet, 0.79));
        Check(Good, CheckName.Sand).Verdict.ShouldBe(Verdict.Met);
    }

    [Fact]
    public void The_inclination_of_the_log_stands_for_that_of_the_record()
    {
        Check(Good with { InclinationDegrees = 0.9 }, CheckName.Verticality).ShouldSatisfyAllConditions(
            one => one.Verdict.ShouldBe(Verdict.NotMet), one => one.Value.ShouldBe(0.9), one => one.Reason.ShouldContain("by the log of record 77"));
        Check(Good with { InclinationDegrees = null }, CheckName.Verticality).Value.ShouldBe(0.3);
    }

    [Fact]
    public void A_time_the_record_leaves_out_comes_from_the_log_and_one_that_contradicts_it_is_a_finding()
    {
        Check(Good, CheckName.Times, built => built with { Start = null }).ShouldSatisfyAllConditions(
            one => one.Verdict.ShouldBe(Verdict.Met), one => one.Reason.ShouldContain("or in the log"), one => one.Value!.Value.ShouldBe(45, 0.01));
        Check(Good, CheckName.Times, built => built with { EndOfPenetration = built.EndOfPenetration + Duration.FromMinutes(11) }).Verdict.ShouldBe(Verdict.NotMet);
    }

    [Theory]
    [InlineData(71.5, 40, 41, Verdict.Met)]
    [InlineData(80, 40, 40, Verdict.NotMet)] // 80 of 71.5 on the record: 11.9 % more
    [InlineData(71.5, 40, 36, Verdict.NotMet)] // the gauge saw 10 % less than was charged
    public void Log_record_and_charges_must_agree_where_the_site_says_how_far(double left, double recorded, double seen, Verdict verdict)
    {
        LogFigures figures = Good with { SandLeftCubicMetres = left, Compared = new ComparedCharges(recorded, seen) };

        Judge(figures, Invented.ZoneA, agreement: 0.06).Checks.Single(one => one.Check == CheckName.SandAgreement).Verdict.ShouldBe(verdict);
        Judge(figures, Invented.ZoneA).Checks.ShouldNotContain(one => one.Check == CheckName.SandAgreement);
        Judge(null, Invented.ZoneA, agreement: 0.06).Checks.ShouldNotContain(one => one.Check == CheckName.SandAgreement);
    }

    private static CheckResult Check(LogFigures? figures, CheckName check, Func<Installation, Installation>? change = null)
        => Judge(figures, Invented.ZoneA with { Limits = Invented.ZoneA.Limits with { DiameterShortRatio = 0.1, GapMetres = 0.3, MetreSandShortRatio = 0.2 } }, change)
            .Checks.Single(one => one.Check == check);

    private static PileJudgement Judge(LogFigures? figures, Zone zone, Func<Installation, Installation>? change = null, double? agreement = null)
    {
        Installation built = Invented.Built("A-0001", 0, 0);
        LocatedInstallation located = Invented.Located(change is null ? built : change(built)) with { Log = new JoinedLog(77, new string('a', 64), Instant.FromUtc(2026, 3, 10, 8, 0)) };
        JudgingContract contract = Invented.Contract(zone) with { SandAgreementRatio = agreement, ReadLog = (_, _, cutOff) => cutOff < -12.39 && cutOff > -12.41 ? figures : null };
        return PileJudge.Judge(Invented.Planned("A-0001", 0, 0), [located], contract);
    }
}
