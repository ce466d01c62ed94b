using NodaTime;
using Shouldly;
using SiteProgress.Core.Bias;
using Xunit;

namespace SiteProgress.Core.Tests.Bias;

/// <summary>Recorded against independently measured positions: the only test that sees an error the barge both steers by and records with.</summary>
public sealed class CheckReviewTests
{
    [Fact]
    public void A_common_offset_of_a_barge_is_found_and_said()
    {
        IReadOnlyList<CheckFinding> found = CheckReview.Of([.. Barge("Curlew", -0.15, 0.10, 8), .. Barge("Tern", 0, 0, 8)], 0.03);

        CheckFinding curlew = found.Single(one => one is { Barge: "Curlew", Casing: null });
        curlew.StandsOut.ShouldBeTrue();
        (curlew.Measurements, curlew.Visits).ShouldBe((24, 8));
        curlew.ForwardMetres.ShouldBe(-0.15, 0.02);
        curlew.StarboardMetres.ShouldBe(0.10, 0.02);
        curlew.Sentence.ShouldContain("mm aft");
        found.Where(one => one.Barge == "Tern").ShouldAllBe(one => !one.StandsOut);
        found.Where(one => one is { Barge: "Curlew", Casing: not null }).ShouldAllBe(one => !one.StandsOut);
    }

    [Fact]
    public void One_casing_that_is_off_is_told_from_its_barge()
    {
        CheckedPosition[] checks = Barge("Plover", 0, 0, 8).Select(one => one.Casing == 2 ? Moved(one, 0.2, 0) : one).ToArray();

        CheckFinding casing = CheckReview.Of(checks, 0.03).Where(one => one.Casing is not null).MaxBy(one => one.SizeMetres)!;

        casing.Casing.ShouldBe(2);
        casing.StandsOut.ShouldBeTrue();
        casing.ForwardMetres.ShouldBe(0.2, 0.03);
    }

    [Fact]
    public void Two_visits_prove_nothing_and_say_what_is_missing()
    {
        CheckFinding finding = CheckReview.Of(Barge("Curlew", -0.15, 0.10, 2), 0.03)[0];

        finding.StandsOut.ShouldBeFalse();
        finding.Sentence.ShouldContain("at least three");
    }

    [Fact]
    public void Without_a_heading_the_axes_are_those_of_the_grid()
    {
        CheckFinding finding = CheckReview.Of(Barge("Curlew", 0.1, 0, 6).Select(one => one with { HeadingDegrees = null }).ToArray(), 0.03).ShouldHaveSingleItem();

        finding.InBargeAxes.ShouldBeFalse();
        finding.Sentence.ShouldNotContain("starboard");
    }

    [Fact]
    public void An_offset_that_came_with_a_calibration_is_told_from_the_one_before()
    {
        // Casing 2: eight set-ups with the calibration of record 10, eight more, 0.12 m to starboard, with that of record 90.
        CheckedPosition[] before = Barge("Plover", 0, 0, 8).Where(one => one.Casing == 2).Select(one => one with { Calibration = 10 }).ToArray();
        CheckedPosition[] after = Barge("Plover", 0, 0.12, 8).Where(one => one.Casing == 2).Select(one => one with { Calibration = 90, Visit = one.Visit + "b" }).ToArray();

        CheckFinding[] found = CheckReview.Of([.. before, .. after], 0.03).Where(one => one.Calibration is not null).ToArray();

        found.Select(one => (one.Calibration, one.StandsOut)).ShouldBe([(10, false), (90, true)]);
        found[1].StarboardMetres.ShouldBe(0.12, 0.02);
        found[1].Sentence.ShouldStartWith("Plover, casing 2 with the calibration of record 90: recorded");
    }

    [Fact]
    public void No_measurement_gives_no_finding() => CheckReview.Of([], 0.03).ShouldBeEmpty();

    private static CheckedPosition[] Barge(string barge, double forward, double starboard, int visits)
    {
        Random random = new(barge.Length * 1000 + visits);
        return Enumerable.Range(0, visits * 3).Select(index =>
        {
            double heading = 33 + (index / 3 % 2 * 180);
            CheckedPosition one = new(
                index, barge, 1 + (index % 3), $"{barge}-{index / 3}", Instant.FromUtc(2026, 3, 1 + (index / 3), 9, 0), new LocalDate(2026, 3, 1 + (index / 3)), heading,
                0.03 * (random.NextDouble() - 0.5), 0.03 * (random.NextDouble() - 0.5), 0.04);
            return Moved(one, forward, starboard);
        }).ToArray();
    }

    private static CheckedPosition Moved(CheckedPosition one, double forward, double starboard)
    {
        (double east, double north) = BargeFrame.ToGrid(forward, starboard, one.HeadingDegrees!.Value);
        return one with { DifferenceEastMetres = one.DifferenceEastMetres + east, DifferenceNorthMetres = one.DifferenceNorthMetres + north };
    }
}
