using NodaTime;
using Shouldly;
using SiteProgress.Bench.Deviations;
using SiteProgress.Core.Bias;
using SiteProgress.DemoGenerator.BiasStudy;
using Xunit;

namespace SiteProgress.Core.Tests.Bias;

/// <summary>Causes of the whole site, headings, checks, and data of every poor kind. What is planted is worked out by hand.</summary>
public sealed class BiasReviewTests
{
    private static readonly BiasPile[] Clean = StudyPiles.Of(StudySite.Make(ErrorFamily.SharedInSetUp, 3, days: 20));

    [Fact]
    public void A_shift_of_the_grid_is_named_when_all_barges_on_all_headings_show_it()
    {
        BiasClaim claim = BiasReview.Run(Moved(Clean, _ => (0.06, -0.05)), [], StudyPiles.Site).Claims.ShouldHaveSingleItem();

        claim.Named.Cause.Kind.ShouldBe(CauseKind.GridShift);
        claim.Named.Values[0].Value.ShouldBe(0.06, 0.012);
        claim.Named.Values[1].Value.ShouldBe(-0.05, 0.012);
        claim.Others.Single(other => other.Cause.Kind == CauseKind.OffsetPerBarge).Excluded.ShouldBeTrue();
        claim.Touched.Piles.ShouldBe(Clean.Length);
        claim.LastsToEnd.ShouldBeTrue();
    }

    [Fact]
    public void A_turn_of_the_grid_is_named_with_its_angle()
    {
        // 0.05 degrees clockwise about a point: east of it piles go south, north of it east; 0.05 degrees is 0.87 mm a metre.
        double angle = 0.05 * Math.PI / 180;
        BiasClaim claim = BiasReview.Run(
            Moved(Clean, pile => ((pile.NorthMetres - 10) * angle, -(pile.EastMetres - 200) * angle)), [], StudyPiles.Site).Claims[0];

        claim.Named.Cause.Kind.ShouldBe(CauseKind.GridTurn);
        claim.Named.Values[0].Name.ShouldBe("angle");
        claim.Named.Values[0].Value.ShouldBe(0.05, 4 * claim.Named.Values[0].StandardError);
    }

    [Fact]
    public void A_wrong_heading_is_named_when_outer_casings_go_fore_and_aft()
    {
        // Recorded heading 0.8 degrees too large: a casing s metres to starboard is recorded s times the angle aft, one f metres forward f times it to starboard.
        double angle = 0.8 * Math.PI / 180;
        BiasPile[] turned = Moved(Clean, pile =>
        {
            CasingArm arm = StudyPiles.Site.Arms.Single(one => one.Barge == pile.Barge && one.Casing == pile.Casing);
            return pile.Barge == "Tern" ? BargeFrame.ToGrid(-arm.StarboardMetres * angle, arm.ForwardMetres * angle, pile.HeadingDegrees!.Value) : (0, 0);
        });

        BiasClaim claim = BiasReview.Run(turned, [], StudyPiles.Site).Claims.ShouldHaveSingleItem();

        claim.Named.Cause.ShouldBe(new Cause(CauseKind.Heading, "Tern", null));
        claim.Named.Values[0].Value.ShouldBe(0.8, 4 * claim.Named.Values[0].StandardError);
        claim.Others.Where(other => other.Cause.Kind == CauseKind.CasingOffset).ShouldAllBe(other => other.Excluded);
    }

    [Fact]
    public void A_heading_error_as_large_as_the_convergence_says_so()
    {
        BiasSite site = StudyPiles.Site with { ConvergenceDegrees = 0.8 };
        double angle = 0.8 * Math.PI / 180;
        BiasPile[] turned = Moved(Clean, pile =>
        {
            CasingArm arm = site.Arms.Single(one => one.Barge == pile.Barge && one.Casing == pile.Casing);
            return pile.Barge == "Tern" ? BargeFrame.ToGrid(-arm.StarboardMetres * angle, arm.ForwardMetres * angle, pile.HeadingDegrees!.Value) : (0, 0);
        });

        BiasReview.Run(turned, [], site).Claims[0].Remarks.ShouldContain(remark => remark.Contains("convergence", StringComparison.Ordinal));
    }

    [Fact]
    public void An_offset_on_one_heading_cannot_be_told_from_a_shift_of_the_grid()
    {
        BiasPile[] tern = Clean.Where(pile => pile.Barge == "Tern").Select(pile => pile with { HeadingDegrees = 33 }).ToArray();

        BiasFindings findings = BiasReview.Run(Moved(tern, pile => BargeFrame.ToGrid(0.1, 0, 33)), [], StudyPiles.Site);

        BiasClaim claim = findings.Claims.ShouldHaveSingleItem();
        claim.Others.ShouldContain(other => (other.Cause.Kind == CauseKind.GridShift || other.Cause.Kind == CauseKind.OffsetPerBarge || other.Cause.Kind == CauseKind.BargeOffset) && !other.Excluded);
        claim.Others.SelectMany(other => other.StandardErrorsTogether!).ShouldContain((double?)null);
        claim.Remarks.ShouldContain(remark => remark.Contains("cannot be told apart", StringComparison.Ordinal));
        findings.Remarks.ShouldContain(remark => remark.Contains("one heading only", StringComparison.Ordinal));
        findings.Remarks.ShouldContain(remark => remark.Contains("Only one barge", StringComparison.Ordinal));
    }

    [Fact]
    public void What_is_smaller_than_the_site_wants_named_is_not_named()
    {
        BiasPile[] shifted = Moved(Clean, _ => (0.025, 0));

        BiasReview.Run(shifted, [], StudyPiles.Site).Claims.ShouldBeEmpty();
        BiasReview.Run(shifted, [], StudyPiles.Site with { LeastSizeMetres = 0.01 }).Claims.ShouldHaveSingleItem();
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    public void Few_piles_break_nothing_and_prove_nothing(int count)
    {
        BiasFindings findings = BiasReview.Run(Clean.Take(count).ToArray(), [], StudyPiles.Site);

        findings.Claims.ShouldBeEmpty();
        findings.Piles.ShouldBe(count);
        findings.Remarks.ShouldNotBeEmpty();
    }

    [Fact]
    public void Piles_all_alike_break_nothing()
    {
        BiasPile[] alike = Clean.Select(pile => Clean[0] with { Number = pile.Number }).ToArray();

        BiasReview.Run(alike, [], StudyPiles.Site).Claims.ShouldAllBe(claim => double.IsFinite(claim.SizeMetres) && !claim.Sentence.Contains("NaN", StringComparison.Ordinal));
        BiasReview.Run(Moved(Clean.Select(pile => pile with { DeviationEastMetres = 0, DeviationNorthMetres = 0 }), _ => (0, 0)), [], StudyPiles.Site).Claims.ShouldBeEmpty();
    }

    [Fact]
    public void Piles_without_a_coordinate_and_one_at_the_end_of_the_world_are_left_out_and_counted()
    {
        BiasPile[] poor = [.. Clean.Select((pile, index) => index switch
        {
            5 => pile with { DeviationEastMetres = 1e9 },
            6 => pile with { DeviationNorthMetres = double.NaN },
            _ => pile,
        })];

        BiasFindings findings = BiasReview.Run(poor, [], StudyPiles.Site);

        (findings.LeftOutFar, findings.LeftOutMissing, findings.Piles).ShouldBe((1, 1, Clean.Length - 2));
        findings.Claims.ShouldBeEmpty();
        BiasReview.Run(Clean.Select(pile => pile with { DeviationEastMetres = double.NaN }).ToArray(), [], StudyPiles.Site).Claims.ShouldBeEmpty();
    }

    [Fact]
    public void Piles_without_heading_casing_set_up_or_time_are_still_looked_at()
    {
        BiasPile[] bare = Clean.Select(pile => pile with { HeadingDegrees = null, Casing = null, SetUp = null, Ended = null, Day = null }).ToArray();

        BiasClaim claim = BiasReview.Run(Moved(bare, _ => (0.1, 0)), [], StudyPiles.Site).Claims[0];

        claim.Named.Cause.Kind.ShouldBe(CauseKind.GridShift);
        claim.Sentence.ShouldContain("days not on the record");
    }

    [Theory]
    [InlineData(0.16, -0.12, ClaimStanding.RecordWrong)]
    [InlineData(0, 0, ClaimStanding.PilesWrong)]
    [InlineData(0.08, 0.10, ClaimStanding.Unsettled)]
    public void A_check_measurement_says_whether_record_or_piles_are_wrong(double forward, double starboard, ClaimStanding standing)
    {
        BiasPile[] piles = StudyPiles.Of(StudySite.Make(ErrorFamily.SharedInSetUp, 11, days: 20, bias: new PlantedBias(1, 3, 0.16, -0.12, 6, 13)));
        (double east, double north) = BargeFrame.ToGrid(forward, starboard, 33);
        CheckedPosition[] checks = Enumerable.Range(0, 3)
            .Select(index => new CheckedPosition(index, "Plover", 3, $"V{index}", Instant.FromUtc(2026, 3, 10 + index, 9, 0), null, 33, east, north, 0.04)).ToArray();

        BiasReview.Run(piles, checks, StudyPiles.Site).Claims.ShouldHaveSingleItem().Support.Standing.ShouldBe(standing);
    }

    private static BiasPile[] Moved(IEnumerable<BiasPile> piles, Func<BiasPile, (double East, double North)> by) => piles.Select(pile =>
    {
        (double east, double north) = by(pile);
        return pile with
        {
            DeviationEastMetres = pile.DeviationEastMetres + east,
            DeviationNorthMetres = pile.DeviationNorthMetres + north,
            JudgedEastMetres = pile.JudgedEastMetres + east,
            JudgedNorthMetres = pile.JudgedNorthMetres + north,
        };
    }).ToArray();
}
