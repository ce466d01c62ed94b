using Shouldly;
using SiteProgress.Core.Levels;
using Xunit;

namespace SiteProgress.Core.Tests.Levels;

/// <summary>The three formulas against values worked by hand; sines from a table of trigonometric functions to six places.</summary>
public sealed class LevelFormulasTests
{
    [Fact]
    public void A_tip_32_40_m_below_a_tide_of_1_85_m_lies_at_minus_30_55_m()
        => LevelFormulas.BelowWaterMetres(1.85, 32.40).ShouldBe(-30.55, 1e-9); // 1.85 - 32.40, by hand

    [Fact]
    public void The_same_depth_with_a_tide_of_three_hours_before_is_wrong_by_the_tide()
        => (LevelFormulas.BelowWaterMetres(0.65, 32.40) - LevelFormulas.BelowWaterMetres(1.85, 32.40)).ShouldBe(-1.20, 1e-9);

    [Fact]
    public void A_level_barge_has_the_deck_above_keel_less_the_draught()
        => Freeboard.AtCasingMetres(5.00, new Attitude(2.10, 0, 0), 20, 6).ShouldBe(2.90, 1e-12);

    [Fact]
    public void Bow_and_starboard_down_lower_a_casing_forward_and_to_starboard()
    {
        // By hand: sin 0.5 deg = 0.008727, sin 1 deg = 0.017452, cos 0.5 deg = 0.999962.
        // 5.00 - 2.10 - 20 x 0.008727 - 6 x 0.017452 x 0.999962 = 2.90 - 0.174531 - 0.104710 = 2.620759
        Freeboard.AtCasingMetres(5.00, new Attitude(2.10, 1, 0.5), 20, 6).ShouldBe(2.620759, 5e-6);

        // Water 1.85, depth below deck 37.00: 1.85 + 2.620759 - 37.00 = -32.529241
        LevelFormulas.BelowDeckMetres(1.85, 2.620759, 37.00).ShouldBe(-32.529241, 1e-9);
    }

    [Fact]
    public void A_casing_aft_and_to_port_of_a_barge_with_bow_and_starboard_down_stands_higher()
        => Freeboard.AtCasingMetres(5.00, new Attitude(2.10, 1, 0.5), -20, -6).ShouldBe(2.90 + 0.174531 + 0.104710, 5e-6);

    [Fact]
    public void Fore_and_aft_draughts_give_draught_at_the_reference_point_and_trim()
    {
        // By hand: marks 30 m forward and 25 m aft, readings 2.40 and 1.85: slope 0.55 / 55 = 0.01;
        // at the reference point 1.85 + 25 x 0.01 = 2.10; trim = arctan 0.01 = 0.572939 deg.
        Attitude attitude = Attitude.FromMarks(2.40, 30, 1.85, -25, 1.0);

        attitude.DraughtMetres.ShouldBe(2.10, 1e-9);
        attitude.TrimDegrees.ShouldBe(0.572939, 1e-6);
        attitude.ListDegrees.ShouldBe(1.0);
    }

    [Fact]
    public void Marks_at_one_place_are_refused()
        => Should.Throw<ArgumentException>(() => Attitude.FromMarks(2, 10, 2, 10, 0)).Message.ShouldContain("one place");

    [Fact]
    public void An_antenna_gives_a_level_by_the_height_of_the_datum()
        => LevelFormulas.FromAntennaMetres(58.412, 41.276, 47.20).ShouldBe(-30.064, 1e-9); // 58.412 - 41.276 - 47.20, by hand
}
