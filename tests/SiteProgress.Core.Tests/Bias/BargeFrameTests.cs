using Shouldly;
using SiteProgress.Core.Bias;
using Xunit;

namespace SiteProgress.Core.Tests.Bias;

/// <summary>Lever arms by hand from dE = f sin H + s cos H, dN = f cos H - s sin H (plane trigonometry; rotation of axes).</summary>
public sealed class BargeFrameTests
{
    [Theory]
    [InlineData(10, 3.5, 0, 3.5000, 10.0000)]
    [InlineData(10, 3.5, 90, 10.0000, -3.5000)]
    [InlineData(10, 3.5, 274.07, -9.7264, 4.2009)]
    [InlineData(25, -6, 45, 13.4350, 21.9203)]
    public void An_arm_forward_and_to_starboard_turns_with_the_heading(double forward, double starboard, double heading, double east, double north)
    {
        (double e, double n) = BargeFrame.ToGrid(forward, starboard, heading);

        e.ShouldBe(east, 5e-5);
        n.ShouldBe(north, 5e-5);
        (double f, double s) = BargeFrame.FromGrid(e, n, heading);
        f.ShouldBe(forward, 1e-12);
        s.ShouldBe(starboard, 1e-12);
    }

    [Theory]
    // Chord of a turn: 2 r sin(a/2), by hand; 1 degree at 25 m and 50 m, a convergence of 1.93 degrees at 25 m.
    [InlineData(25, 1, 0.4363)]
    [InlineData(50, 1, 0.8727)]
    [InlineData(25, 1.93, 0.8421)]
    public void A_wrong_heading_moves_the_casing_by_the_chord(double arm, double error, double distance)
    {
        (double e, double n) = BargeFrame.ToGrid(arm, 0, 30);
        (double wrongE, double wrongN) = BargeFrame.ToGrid(arm, 0, 30 + error);

        Math.Sqrt(Math.Pow(wrongE - e, 2) + Math.Pow(wrongN - n, 2)).ShouldBe(distance, 5e-4);
    }
}
