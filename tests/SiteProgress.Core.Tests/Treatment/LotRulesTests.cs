using NodaTime.Text;
using Shouldly;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Ground;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Treatment;
using Xunit;

namespace SiteProgress.Core.Tests.Treatment;

public sealed class LotRulesTests
{
    private static readonly LotRules Rules = new(0.95, 0.300, 1.01, 0.72, 15, "Clause 8");

    [Theory]
    // Area of a circle over the ground of one pile: 2.0 m at 2.1 m is 0.7124 square and 0.8226 triangular, 0.8 m at 1.5 m is
    // 0.2234 and 0.2580 (worked example after Han, Principles and Practice of Ground Improvement, 2015, which prints 0.26).
    [InlineData(Pattern.Square, 2.0, 2.1, null, 0.7124)]
    [InlineData(Pattern.Triangular, 2.0, 2.1, null, 0.8226)]
    [InlineData(Pattern.Square, 0.8, 1.5, null, 0.2234)]
    [InlineData(Pattern.Triangular, 0.8, 1.5, null, 0.2580)]
    // 2.0 m with 2.1 m one way: a_s 0.78 at 1.9179 m the other way (plane geometry).
    [InlineData(Pattern.Rectangular, 2.0, 2.1, 1.9179, 0.7800)]
    public void The_replacement_ratio_is_the_section_of_the_pile_over_its_ground(Pattern pattern, double diameter, double spacing, double? second, double expected)
    {
        Zone zone = Invented.ZoneA with { Pattern = pattern, SpacingMetres = spacing, SecondSpacingMetres = second };
        double section = Math.PI * diameter * diameter / 4;
        PileJudgement pile = PileJudge.Judge(
            Invented.Planned("A-0001", 0, 50), [Invented.Located(Invented.Built("A-0001", 0, 50) with { SandInCasing = section * 18.1 / 0.8 })], Invented.Contract(zone));

        LotRulesJudge.ReplacementRatio(zone, pile)!.Value.ShouldBe(expected, 5e-5);
    }

    [Fact]
    public void Every_rule_is_judged_with_its_numbers_and_soundings_that_are_not_there_are_not_judged()
    {
        IReadOnlyList<LotRuleResult> results = Judge(Pile(0.05), Pile(0.10));

        results.Select(result => result.Verdict).ShouldBe([Verdict.Met, Verdict.Met, Verdict.NotMet, Verdict.NotMet, Verdict.NotJudged]);
        results[1].Value!.Value.ShouldBe(0.10, 1e-9);
        // 71.5 m³ loose times C 0.8 over 18.1 m of 3.1416 m³ a metre.
        results[2].Value!.Value.ShouldBe(71.5 * 0.8 / (18.1 * 3.1416), 1e-9);
        results[4].Reason.ShouldContain("No sounding");
    }

    [Fact]
    public void The_share_is_judged_only_where_the_piles_not_judged_cannot_change_it()
    {
        PileJudgement unknown = Pile(0.05, FixType.RtkFloat);
        PileJudgement[] within = [.. Enumerable.Repeat(Pile(0.05), 19)];

        Judge([.. within, unknown])[0].Verdict.ShouldBe(Verdict.Met);
        Judge([.. within.Take(18), unknown, Pile(0.2)])[0].Verdict.ShouldBe(Verdict.NotJudged);
        Judge([.. within.Take(17), unknown, Pile(0.2), Pile(0.2)])[0].Verdict.ShouldBe(Verdict.NotMet);
    }

    [Fact]
    public void One_pile_beyond_the_absolute_limit_breaks_the_lot()
        => Judge(Pile(0.05), Pile(0.301))[1].Verdict.ShouldBe(Verdict.NotMet);

    [Fact]
    public void A_zone_without_lot_rules_says_so()
        => LotRulesJudge.Judge(Invented.ZoneA, [Pile(0.05)], []).Single().Verdict.ShouldBe(Verdict.NotJudged);

    [Fact]
    public void Where_limits_along_the_axes_decide_the_farthest_of_all_positions_is_held_against_the_absolute_limit()
    {
        // At touch-down 0.16 m across, which is 80 % of its limit of 0.20 m; at the end 0.18 m along, 60 % of its limit of 0.30 m.
        Zone zone = Invented.ZoneA with { AlertRadialMetres = null, LotRules = Rules with { AbsoluteRadialMetres = 0.17 }, Limits = Invented.ZoneA.Limits with { RadialMetres = null, AlongMetres = 0.30, AcrossMetres = 0.20 } };
        Installation built = Invented.Built("A-0001", 0, 50) with
        {
            TouchDown = new RecordedPosition(Frame.SiteGrid, 0, 50.16), AtEndOfPenetration = new RecordedPosition(Frame.SiteGrid, 0.18, 50),
        };
        PileJudgement pile = PileJudge.Judge(Invented.Planned("A-0001", 0, 50), [Invented.Located(built)], Invented.Contract(zone));
        pile.Position!.Deviation.RadialMetres.ShouldBe(0.16, 1e-9);

        LotRuleResult largest = LotRulesJudge.Judge(zone, [pile], []).Single(result => result.Rule == "largest radial deviation");

        (largest.Verdict, Math.Round(largest.Value!.Value, 9)).ShouldBe((Verdict.NotMet, 0.18));
    }

    [Theory]
    // The pile stands from -12.4 to -30.5, built on 10 March 2026 at (0, 50); the ground at -12, the spacing 2.1 m. N as reported.
    [InlineData(1.0, 50, 6.0, 18, "2026-04-20", Verdict.Met)]
    [InlineData(1.0, 50, 6.0, 15, "2026-04-20", Verdict.Met)]
    [InlineData(1.0, 50, 6.0, 14, "2026-04-20", Verdict.NotMet)]
    [InlineData(2.2, 50, 6.0, 14, "2026-04-20", Verdict.NotJudged)]
    [InlineData(1.0, 50, 6.0, 14, "2026-03-10", Verdict.NotJudged)]
    [InlineData(1.0, 50, 6.0, 14, null, Verdict.NotJudged)]
    [InlineData(1.0, 50, 0.3, 14, "2026-04-20", Verdict.NotJudged)]
    [InlineData(1.0, 50, 18.6, 14, "2026-04-20", Verdict.NotJudged)]
    [InlineData(1.0, 50, 6.0, null, "2026-04-20", Verdict.NotJudged)]
    public void Of_penetration_tests_those_count_that_lie_in_the_improved_ground_and_came_after_it(double x, double y, double depth, int? blows, string? day, Verdict expected)
    {
        LotRuleResult spt = Spt(Test(x, y, depth, blows, day));

        spt.Verdict.ShouldBe(expected);
        spt.Value.ShouldBe(expected == Verdict.NotJudged ? null : blows);
        if (expected == Verdict.NotJudged) spt.Reason.ShouldContain("Tests that do not count: 1 ");
    }

    [Fact]
    public void The_least_of_the_tests_that_count_decides_and_the_others_are_told()
    {
        LotRuleResult spt = Spt(Test(0.5, 50, 6, 30, "2026-04-20"), Test(0.5, 50, 8, 15, "2026-04-20"), Test(40, 50, 6, 2, "2026-04-20"), Test(0.5, 50, 6, 3, "2026-02-01"));

        (spt.Verdict, spt.Value).ShouldBe((Verdict.Met, 15.0));
        spt.Reason.ShouldBe("Least N of 2 tests, as reported; >= limit (Clause 8). Tests that do not count: 1 not within a spacing of a pile of the lot, 1 not on a day after their pile was built, or without a day.");
    }

    private static LotRuleResult Spt(params PlacedTest[] tests)
        => LotRulesJudge.Judge(Invented.ZoneA with { LotRules = Rules }, [Pile(0.05)], tests).Single(result => result.Rule == "SPT N after improvement");

    private static PlacedTest Test(double x, double y, double depth, int? blows, string? day) => new(
        7,
        new PenetrationTest("BH", null, -12, depth, blows, null, null, null, null, null, null, null, day is null ? null : LocalDatePattern.Iso.Parse(day).Value),
        new SiteCoordinate(x, y));

    private static IReadOnlyList<LotRuleResult> Judge(params PileJudgement[] piles) => LotRulesJudge.Judge(Invented.ZoneA with { LotRules = Rules }, piles, []);

    private static PileJudgement Pile(double off, FixType fix = FixType.RtkFixed)
        => PileJudge.Judge(Invented.Planned("A-0001", 0, 50), [Invented.Located(Invented.Built("A-0001", off, 50) with { Fix = fix })], Invented.Contract());
}
