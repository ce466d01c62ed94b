using Shouldly;
using SiteProgress.Bench.Deviations;
using SiteProgress.Core.Bias;
using SiteProgress.DemoGenerator.BiasStudy;
using Xunit;

namespace SiteProgress.Core.Tests.Bias;

/// <summary>
/// A small part, with fixed seeds, of what <c>./bench bias</c> measures on 200 sites a family: sites are generated without any of
/// the product's code, so what is planted is known from outside.
/// </summary>
public sealed class StudyTests
{
    private const int Sites = 6;

    public static TheoryData<ErrorFamily> Families => [.. Enum.GetValues<ErrorFamily>()];

    [Theory]
    [MemberData(nameof(Families))]
    public void Clean_sites_are_not_blamed(ErrorFamily family)
        => Enumerable.Range(0, Sites).SelectMany(seed => Review(family, seed, null).Claims).Select(claim => claim.Sentence).ShouldBeEmpty();

    [Theory]
    [MemberData(nameof(Families))]
    public void A_casing_that_is_off_for_eight_days_is_found_with_its_days_and_size(ErrorFamily family)
    {
        for (int seed = 0; seed < Sites; seed++)
        {
            PlantedBias bias = new(1, 3, 0.16, -0.12, 10 + seed, 17 + seed);

            BiasClaim claim = Review(family, 50 + seed, bias).Claims.ShouldHaveSingleItem();

            claim.Named.Cause.ShouldBe(new Cause(CauseKind.CasingOffset, "Plover", 3));
            StudyPiles.DayOf(claim.FromDay!.Value).ShouldBeInRange(bias.FirstDay - 1, bias.FirstDay + 1);
            StudyPiles.DayOf(claim.ToDay!.Value).ShouldBeInRange(bias.LastDay - 1, bias.LastDay + 1);
            claim.SizeMetres.ShouldBe(0.20, 0.03);
            claim.Touched.Piles.ShouldBeInRange(62, 66);
            claim.Touched.WithinThen.ShouldBeGreaterThan(claim.Touched.WithinNow + 40);
            claim.Support.Standing.ShouldBe(ClaimStanding.Suspected);
        }
    }

    [Theory]
    [MemberData(nameof(Families))]
    public void An_offset_of_a_barge_on_two_headings_is_told_from_a_shift_of_the_grid(ErrorFamily family)
    {
        BiasClaim claim = Review(family, 7, new PlantedBias(0, 0, -0.10, 0.06, 5, 20)).Claims.ShouldHaveSingleItem();

        claim.Named.Cause.ShouldBe(new Cause(CauseKind.BargeOffset, "Tern", null));
        claim.Named.Values[0].Value.ShouldBe(-0.10, 3 * claim.HalfWidth(claim.Named.Values[0]));
        claim.Named.Values[1].Value.ShouldBe(0.06, 3 * claim.HalfWidth(claim.Named.Values[1]));
        claim.Others.Single(other => other.Cause.Kind == CauseKind.GridShift).Excluded.ShouldBeTrue();
        claim.Sentence.ShouldStartWith("Offset of Tern, 2026-03-0");
        StudyPiles.DayOf(claim.FromDay!.Value).ShouldBeInRange(4, 6);
        StudyPiles.DayOf(claim.ToDay!.Value).ShouldBeInRange(19, 21);
        claim.Sentence.ShouldContain("aft and");
        claim.Sentence.ShouldContain("to starboard");
    }

    [Fact]
    public void Most_stated_intervals_hold_the_truth()
    {
        int held = 0;
        for (int seed = 0; seed < 40; seed++)
        {
            BiasClaim claim = Review(ErrorFamily.SharedInSetUp, 500 + seed, new PlantedBias(2, 1, 0.12, 0.05, 8, 15)).Claims[0];
            held += Holds(claim, 0, 0.12) + Holds(claim, 1, 0.05);
        }

        // 80 intervals of 95 %: 76 are expected; outside 70 to 80 a binomial count falls once in 250 times. The seeds are fixed.
        held.ShouldBeInRange(70, 80);
    }

    private static int Holds(BiasClaim claim, int index, double truth)
        => Math.Abs(claim.Named.Values[index].Value - truth) <= claim.HalfWidth(claim.Named.Values[index]) ? 1 : 0;

    private static BiasFindings Review(ErrorFamily family, int seed, PlantedBias? bias)
        => BiasReview.Run(StudyPiles.Of(StudySite.Make(family, seed, bias: bias)), [], StudyPiles.Site);
}
