using Shouldly;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Deviations;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using Xunit;

namespace SiteProgress.Core.Tests.Checks;

/// <summary>Limits of position, level and verticality with alerts. Expected values follow from plane geometry and the stated limits.</summary>
public sealed class PositionLimitTests
{
    private static readonly PlannedPile Pile = Invented.Planned("A-0001", 100, 50);

    [Theory]
    [InlineData(0.08, 0.10, Verdict.Met)]
    [InlineData(0.11, 0.00, Verdict.NotMet)]
    [InlineData(-0.11, 0.00, Verdict.NotMet)]
    [InlineData(0.00, 0.12, Verdict.Met)]
    [InlineData(0.00, -0.121, Verdict.NotMet)]
    public void Limits_along_the_axes_hold_each_axis_either_way(double along, double across, Verdict verdict)
        => Position(Of(limits => limits with { RadialMetres = null, AlongMetres = 0.10, AcrossMetres = 0.12 }), along, across).Verdict.ShouldBe(verdict);

    [Fact]
    public void A_position_must_keep_every_limit_and_the_check_shows_the_one_that_is_not_kept()
    {
        // Radial 0.1300 of 0.15 is kept, 0.12 along is beyond 0.10.
        CheckResult check = Position(Of(limits => limits with { AlongMetres = 0.10 }), 0.12, 0.05);

        check.Verdict.ShouldBe(Verdict.NotMet);
        check.Value!.Value.ShouldBe(0.12, 1e-9);
        check.Limit.ShouldBe(0.10);
        check.Reason.ShouldContain("first axis");
    }

    [Fact]
    public void Each_axis_kept_does_not_keep_the_radial_limit()
    {
        CheckResult check = Position(Of(limits => limits with { AlongMetres = 0.13, AcrossMetres = 0.13 }), 0.12, 0.12);

        check.Verdict.ShouldBe(Verdict.NotMet);
        check.Value!.Value.ShouldBe(Math.Sqrt(0.0288), 1e-9);
        check.Limit.ShouldBe(0.15);
    }

    [Theory]
    [InlineData(1.6, 0.150, Verdict.Met)]
    [InlineData(1.2, 0.120, Verdict.Met)]
    [InlineData(1.2, 0.1205, Verdict.NotMet)]
    [InlineData(2.0, 0.151, Verdict.NotMet)]
    public void A_share_of_the_diameter_is_taken_of_each_pile_and_the_smaller_limit_holds(double diameter, double off, Verdict verdict)
        => Position(Of(limits => limits with { RadialDiameterRatio = 0.1 }), off, 0, diameter).Verdict.ShouldBe(verdict);

    [Fact]
    public void The_limit_is_the_share_of_the_diameter_where_no_length_is_set()
        => Position(Of(limits => limits with { RadialMetres = null, RadialDiameterRatio = 0.1 }), 0.19, 0).Limit!.Value.ShouldBe(0.2, 1e-12);

    [Theory]
    [InlineData(0.100, false)]
    [InlineData(0.1001, true)]
    [InlineData(0.160, true)]
    public void Beyond_the_alert_is_marked_whether_the_limit_is_kept_or_not(double off, bool alert)
    {
        CheckResult check = Position(Invented.ZoneA, off, 0);

        check.BeyondAlert.ShouldBe(alert);
        check.Alert.ShouldBe(0.100);
    }

    [Fact]
    public void Levels_and_verticality_have_alerts_of_their_own()
    {
        Zone zone = Invented.ZoneA with { Alerts = new Alerts(TopMetres: 0.1, InclinationDegrees: 0.2) };
        // Top 0.15 m low of 0.30 allowed; 0.3 degrees of 0.57 allowed.
        PileJudgement judgement = PileJudge.Judge(
            Pile, [Invented.Located(Invented.Built("A-0001", 100, 50) with { TopLevelMetres = -12.55 })], Invented.Contract(zone));

        judgement.State.ShouldBe(PileState.Installed);
        judgement.BeyondAlert.ShouldBeTrue();
        judgement.Checks.Where(check => check.BeyondAlert).Select(check => check.Check).ShouldBe([CheckName.Top, CheckName.Verticality]);
    }

    [Fact]
    public void Of_two_positions_the_one_that_breaks_a_limit_is_judged_though_the_other_is_farther_off()
    {
        // 0.14 across is within 0.15; 0.11 along is not within 0.10.
        LocatedInstallation built = Invented.Located(Invented.Built("A-0001", 100, 50.14)) with { AtEndOfPenetration = new SiteCoordinate(100.11, 50) };
        JudgedPosition position = PileJudge.Judge(Pile, [built], Invented.Contract(Of(limits => limits with { AlongMetres = 0.10 }))).Position!;

        position.Moment.ShouldBe(PositionMoment.EndOfPenetration);
    }

    [Fact]
    public void Deviations_of_the_CRS_grid_are_held_along_the_axes_of_a_turned_site_grid()
    {
        // First axis towards north, second towards west: dN is along, dE is across reversed.
        PositionLimit limit = ContractLimits.Position(Of(limits => limits with { AlongMetres = 0.05, AcrossMetres = 0.12 }), 2, new GridRotation(0, 1, -1, 0));

        limit.Hold(0.11, 0.01).Answer.IsMet.ShouldBeTrue();
        (PositionMeasure measure, LimitAnswer answer) = limit.Hold(0.01, 0.11);
        measure.ShouldBe(PositionMeasure.Along);
        answer.Value.ShouldBe(0.11, 1e-12);
        answer.IsMet.ShouldBeFalse();
    }

    [Fact]
    public void What_differs_in_the_last_bits_only_keeps_its_limit()
        => new LimitAnswer(-12.1 - -12.4, 0.3, null).IsMet.ShouldBeTrue();

    [Fact]
    public void Limits_without_the_new_members_are_written_as_before()
    {
        string written = System.Text.Encoding.UTF8.GetString(RecordJson.ToBytes(new SettingsBody(Invented.Settings, null, true)));

        foreach (string member in (string[])["radialDiameterRatio", "alongMetres", "acrossMetres", "alerts"]) written.ShouldNotContain($"\"{member}\"", Case.Insensitive);
        written.ShouldContain("\"radialMetres\":0.15", Case.Insensitive);
    }

    private static Zone Of(Func<Limits, Limits> change) => Invented.ZoneA with { Limits = change(Invented.ZoneA.Limits), AlertRadialMetres = null };

    private static CheckResult Position(Zone zone, double along, double across, double diameter = 2.0)
        => PileJudge.Judge(
            Invented.Planned("A-0001", 0, 0) with { DiameterMetres = diameter },
            [Invented.Located(Invented.Built("A-0001", along, across))],
            Invented.Contract(zone)).Checks.Single(check => check.Check == CheckName.Position);
}
