using Shouldly;
using SiteProgress.Core.Coordinates;
using Xunit;

namespace SiteProgress.Core.Tests.Coordinates;

public sealed class SimilarityFitTests
{
    /// <summary>Ghilani, Adjustment Computations, chapter 18, the three-point conformal example (attribution from memory; data seen in five open repositories).</summary>
    internal static readonly ControlPoint[] Textbook =
    [
        new("A", new(121.622, -128.066), new(1049422.40, 51089.20), 1),
        new("B", new(141.228, 187.718), new(1049413.95, 49659.30), 1),
        new("C", new(175.802, 135.728), new(1049244.95, 49884.95), 1),
    ];

    /// <summary>Five marks of an invented site with small noise; the expected values come from exact rational arithmetic (Python's fractions) on these decimals.</summary>
    internal static readonly ControlPoint[] FiveMarks =
    [
        new("C1", new(0, 0), new(452100.2540, 3890450.7470), 1),
        new("C2", new(600, 0), new(452603.2551, 3890777.4112), 1),
        new("C3", new(600, 400), new(452385.4913, 3891112.7550), 1),
        new("C4", new(0, 400), new(451882.4752, 3890786.0847), 1),
        new("C5", new(300, 200), new(452242.8701, 3890781.7520), 1),
    ];

    [Fact]
    public void The_textbook_example_gives_its_parameters()
    {
        var (fit, quality) = Solve(Textbook);
        fit.EastPerX.ShouldBe(-4.51249361, 5e-9);
        fit.NorthPerX.ShouldBe(-0.2537145, 5e-8);
        fit.EastPerY.ShouldBe(-fit.NorthPerX);
        fit.NorthPerY.ShouldBe(fit.EastPerX);
        var zero = fit.Forward(new(0, 0));
        zero.EastingMetres.ShouldBe(1050003.71454, 1e-5);
        zero.NorthingMetres.ShouldBe(50542.13112, 1e-5);
        fit.Scale.ShouldBe(4.5196205, 5e-8);
        (fit.RotationDegrees + 360).ShouldBe(183.2180612, 5e-8);
        quality.StandardErrorOfUnitWeight!.Value.ShouldBe(0.1398, 5e-5);
        quality.StandardErrors!.Coefficient.ShouldBe(0.00057641, 5e-9);
        quality.StandardErrors.TranslationAtSiteZeroMetres.ShouldBe(0.12259, 5e-6);
    }

    [Theory]
    [InlineData(0, 0.0038, -0.0291, 0.0221)]
    [InlineData(1, 0.1009, -0.0767, 0.4108)]
    [InlineData(2, -0.1047, 0.1059, 0.5671)]
    public void The_textbook_example_gives_its_residuals_and_redundancy_numbers(int mark, double east, double north, double redundancy)
    {
        var residual = Solve(Textbook).Quality.Residuals[mark];
        residual.EastMetres.ShouldBe(east, 6e-5);
        residual.NorthMetres.ShouldBe(north, 6e-5);
        residual.RedundancyNumber.ShouldBe(redundancy, 6e-5);
    }

    [Theory]
    [InlineData(174.148, -120.262, 1049187.361, 51040.629)]
    [InlineData(513.520, -192.130, 1047637.713, 51278.829)]
    [InlineData(754.444, -67.706, 1046582.113, 50656.241)]
    [InlineData(972.788, 120.994, 1045644.713, 49749.336)]
    public void The_textbook_example_moves_its_further_points(double x, double y, double easting, double northing)
    {
        var (fit, _) = Solve(Textbook);
        var there = fit.Forward(new(x, y));
        there.EastingMetres.ShouldBe(easting, 6e-4);
        there.NorthingMetres.ShouldBe(northing, 6e-4);
        var back = fit.Inverse(there);
        back.XMetres.ShouldBe(x, 1e-9);
        back.YMetres.ShouldBe(y, 1e-9);
    }

    [Fact]
    public void Five_marks_with_seven_digit_northings_lose_no_digit()
    {
        var (fit, quality) = Solve(FiveMarks);
        fit.Scale.ShouldBe(0.999621949285146, 1e-13);
        fit.RotationDegrees.ShouldBe(33.000478456942695, 1e-11);
        fit.BearingOfYAxisDegrees.ShouldBe(360 - 33.000478456942695, 1e-11);
        fit.BearingOfXAxisDegrees.ShouldBe(90 - 33.000478456942695, 1e-11);
        quality.StandardErrorOfUnitWeight!.Value.ShouldBe(0.00421, 5e-6);
        quality.StandardErrors!.Coefficient.ShouldBe(5.84e-6, 5e-9);
        quality.Redundancy.ShouldBe(6);
        quality.Residuals.Sum(r => 2 * r.RedundancyNumber).ShouldBe(6, 1e-12);
        (double East, double North)[] millimetres = [(-1.52, 1.15), (6.76, 1.03), (-5.50, -3.19), (1.22, 3.03), (-0.96, -2.02)];
        for (var i = 0; i < 5; i++)
        {
            (quality.Residuals[i].EastMetres * 1000).ShouldBe(millimetres[i].East, 0.006);
            (quality.Residuals[i].NorthMetres * 1000).ShouldBe(millimetres[i].North, 0.006);
        }

        var pile = fit.Forward(new(150, 87.5));
        pile.EastingMetres.ShouldBe(452178.3663, 6e-5);
        pile.NorthingMetres.ShouldBe(3890605.7697, 6e-5);
    }

    [Fact]
    public void Eight_marks_of_a_student_laboratory_give_its_printed_parameters_and_residuals()
    {
        // Open student laboratory photo-lab1, report.md: observed pixels to known millimetres.
        double[][] marks =
        [
            [-105.997, -105.995, 1346, -19286], [106.004, 106.008, 19162, -1471], [-106.000, 106.009, 1347, -1472], [106.012, -105.995, 19164, -19284],
            [-112.000, 0.007, 842, -10380], [112.006, 0.007, 19667, -10377], [0.005, 112.007, 10254, -967], [0.002, -111.998, 10255, -19789],
        ];
        double[] east = [-0.0220, 0.0081, 0.0075, 0.0093, -0.0095, 0.0085, -0.0007, -0.0013];
        double[] north = [0.0033, -0.0097, -0.0080, 0.0124, -0.0139, 0.0064, -0.0036, 0.0131];
        var points = marks.Select((m, i) => new ControlPoint($"{i + 1}", new(m[2], m[3]), new(m[0], m[1]), 1)).ToArray();
        var (fit, quality) = Solve(points);
        fit.EastPerX.ShouldBe(0.0119003453, 5e-11);
        fit.NorthPerX.ShouldBe(-0.0000008202, 5e-11);
        fit.Forward(new(0, 0)).EastingMetres.ShouldBe(-122.0211, 5e-5);
        fit.Forward(new(0, 0)).NorthingMetres.ShouldBe(123.5194, 5e-5);
        quality.StandardErrorOfUnitWeight!.Value.ShouldBe(0.01155, 5e-6);
        quality.StandardErrors!.Coefficient.ShouldBe(3.671e-7, 5e-11);
        quality.StandardErrors.TranslationAtSiteZeroMetres.ShouldBe(0.006734, 5e-7);
        for (var i = 0; i < 8; i++)
        {
            quality.Residuals[i].EastMetres.ShouldBe(east[i], 6e-5, $"point {i + 1}");
            quality.Residuals[i].NorthMetres.ShouldBe(north[i], 6e-5, $"point {i + 1}");
        }
    }

    [Fact]
    public void A_fit_weighs_each_mark_by_its_standard_deviation()
    {
        // A mark said to be a thousand times worse must no longer pull the others; limit value, no source.
        var pulled = FiveMarks.Select((p, i) => i == 2 ? p with { Projected = new(p.Projected.EastingMetres + 1, p.Projected.NorthingMetres), StandardDeviationMetres = 1000 } : p).ToArray();
        var without = FiveMarks.Where((_, i) => i != 2).ToArray();
        var there = Solve(pulled).Fit.Forward(new(100, 50));
        var expected = Solve(without).Fit.Forward(new(100, 50));
        there.EastingMetres.ShouldBe(expected.EastingMetres, 1e-6);
        there.NorthingMetres.ShouldBe(expected.NorthingMetres, 1e-6);
    }

    [Fact]
    public void Four_marks_in_a_square_check_each_observation_by_one_half()
    {
        ControlPoint[] square = [.. new[] { (0, 0), (0, 100), (100, 100), (100, 0) }.Select((p, i) => new ControlPoint($"{i}", new(p.Item1, p.Item2), new(500 + p.Item1, 900 + p.Item2), 0.01))];
        Solve(square).Quality.Residuals.ShouldAllBe(r => Math.Abs(r.RedundancyNumber - 0.5) < 1e-12);
    }

    [Fact]
    public void A_grid_with_X_north_and_Y_east_is_fitted_when_it_is_said_to_be_left_handed()
    {
        var points = FiveMarks.Select(p => p with { Site = new(p.Site.YMetres, p.Site.XMetres) }).ToArray();
        var result = SimilarityFit.Solve(points, SiteAxes.LeftHanded);
        result.IsFitted.ShouldBeTrue();
        result.Adjustment!.IsLeftHanded.ShouldBeTrue();
        result.Adjustment.Scale.ShouldBe(0.999621949285146, 1e-13);
        result.Adjustment.RotationDegrees.ShouldBe(33.000478456942695, 1e-11);
        result.Adjustment.BearingOfSiteNorthDegrees.ShouldBe(360 - 33.000478456942695, 1e-11);
        result.Quality!.StandardErrorOfUnitWeight!.Value.ShouldBe(0.00421, 5e-6);
        var there = result.Adjustment.Forward(new(87.5, 150));
        there.EastingMetres.ShouldBe(452178.3663, 6e-5);
        var back = result.Adjustment.Inverse(there);
        back.XMetres.ShouldBe(87.5, 1e-8);
        back.YMetres.ShouldBe(150, 1e-8);
    }

    internal static (Adjustment Fit, AdjustmentQuality Quality) Solve(IReadOnlyList<ControlPoint> points)
    {
        var result = SimilarityFit.Solve(points);
        result.IsFitted.ShouldBeTrue(result.Refusal);
        return (result.Adjustment!, result.Quality!);
    }
}
