using Shouldly;
using SiteProgress.Core.Piles;
using SiteProgress.Core.SetUps;
using Xunit;

namespace SiteProgress.Core.Tests.SetUps;

/// <summary>Spacing of casings in a line. Worked by hand.</summary>
public sealed class CasingSpacingTests
{
    [Fact]
    public void Casings_abeam_and_in_a_slanting_line_have_the_spacing_of_their_neighbours()
    {
        CasingSpacing.Of(Barge((25, -6.3), (25, 0), (25, 6.3)))!.Value.ShouldBe(6.3, 1e-9);
        CasingSpacing.Of(Barge((20, -4), (23, 0), (26, 4)))!.Value.ShouldBe(5, 1e-9);
    }

    [Fact]
    public void Casings_out_of_line_unevenly_divided_or_alone_have_none()
    {
        CasingSpacing.Of(Barge((25, -6.3), (25.5, 0), (25, 6.3))).ShouldBeNull();
        CasingSpacing.Of(Barge((25, -6.3), (25, 1), (25, 6.3))).ShouldBeNull();
        CasingSpacing.Of(Barge((25, 0))).ShouldBeNull();
    }

    [Fact]
    public void At_another_spacing_the_middle_of_the_casings_stays()
    {
        Barge wider = CasingSpacing.With(Barge((25, -1.1), (25, 1), (25, 3.1)), 4.2);

        wider.Casings.Select(one => Math.Round(one.StarboardMetres, 9)).ShouldBe([-3.2, 1, 5.2]);
        wider.Casings.ShouldAllBe(one => one.ForwardMetres == 25);
    }

    private static Barge Barge(params (double Forward, double Starboard)[] casings)
        => new("Tern", [.. casings.Select((one, place) => new Casing(place + 1, 1.2, 1.3, one.Forward, one.Starboard))], null);
}
