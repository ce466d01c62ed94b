using Shouldly;
using SiteProgress.Core.Coordinates;
using Xunit;

namespace SiteProgress.Core.Tests.Coordinates;

public sealed class AdjustmentStatisticsTests
{
    private static readonly ControlPoint[] Marks =
        [.. SimilarityFitTests.FiveMarks.Select(p => p with { StandardDeviationMetres = 0.005 })];

    /// <summary>Open student laboratory photo-lab1, report.md: observed pixels, known millimetres.</summary>
    private static readonly ControlPoint[] Laboratory =
    [
        new("1", new(1346, -19286), new(-105.997, -105.995), 1), new("2", new(19162, -1471), new(106.004, 106.008), 1),
        new("3", new(1347, -1472), new(-106.000, 106.009), 1), new("4", new(19164, -19284), new(106.012, -105.995), 1),
        new("5", new(842, -10380), new(-112.000, 0.007), 1), new("6", new(19667, -10377), new(112.006, 0.007), 1),
        new("7", new(10254, -967), new(0.005, 112.007), 1), new("8", new(10255, -19789), new(0.002, -111.998), 1),
    ];

    [Fact]
    public void An_affine_fit_gives_the_laboratorys_printed_parameters_and_residuals()
    {
        double[] east = [-0.0092, -0.0047, 0.0110, 0.0058, -0.0008, -0.0001, -0.0056, 0.0036];
        double[] north = [-0.0003, -0.0062, 0.0048, -0.0004, -0.0090, 0.0015, 0.0050, 0.0044];
        var result = AffineFit.Solve(Laboratory);
        var fit = result.Adjustment!;
        fit.Kind.ShouldBe(AdjustmentKind.Affine);
        fit.EastPerX.ShouldBe(0.0118994263, 5e-11);
        fit.EastPerY.ShouldBe(0.0000002998, 5e-11);
        fit.NorthPerX.ShouldBe(-0.0000013405, 5e-11);
        fit.NorthPerY.ShouldBe(0.0119012647, 5e-11);
        fit.Forward(new(0, 0)).EastingMetres.ShouldBe(-122.0170, 5e-5);
        fit.Forward(new(0, 0)).NorthingMetres.ShouldBe(123.5343, 5e-5);
        for (var i = 0; i < 8; i++)
        {
            result.Quality!.Residuals[i].EastMetres.ShouldBe(east[i], 6e-5, $"point {i + 1}");
            result.Quality.Residuals[i].NorthMetres.ShouldBe(north[i], 6e-5, $"point {i + 1}");
        }

        result.Quality!.Redundancy.ShouldBe(10);
        result.Quality.StandardErrorOfUnitWeight!.Value.ShouldBe(0.00704, 5e-6);
        result.Quality.StandardErrors!.Coefficient.ShouldBe(3.167e-7, 1e-10);
        result.Quality.StandardErrors.TranslationAtSiteZeroMetres.ShouldBe(0.00525, 5e-6);
        result.Quality.Residuals.Sum(r => 2 * r.RedundancyNumber).ShouldBe(10, 1e-10);
        var back = fit.Inverse(fit.Forward(new(5000, -7000)));
        back.XMetres.ShouldBe(5000, 1e-8);
        back.YMetres.ShouldBe(-7000, 1e-8);
    }

    [Fact]
    public void An_affine_fit_reproduces_the_published_parametric_example()
    {
        // IOGP Guidance Note 7-2, affine parametric transformation (9624), read in an open test suite; 1 mm.
        double East(double x, double y) => 82357.457 + 0.304794369 * x + 0.000015417425 * y;
        double North(double x, double y) => 28091.324 - 0.000015417425 * x + 0.304794369 * y;
        ControlPoint Mark(string name, double x, double y) => new(name, new(x, y), new(East(x, y), North(x, y)), 0.01);
        var there = AffineFit.Solve([Mark("a", 550000, 480000), Mark("b", 560000, 480000), Mark("c", 550000, 490000), Mark("d", 560000, 490000)])
            .Adjustment!.Forward(new(553900, 482500));
        there.EastingMetres.ShouldBe(251190.497, 1e-3);
        there.NorthingMetres.ShouldBe(175146.067, 1e-3);
    }

    [Theory]
    [InlineData(0, 0, 611267.2865, 3046565.8255)]
    [InlineData(100, 0, 611337.9811, 3046636.5201)]
    [InlineData(0, 100, 611196.5919, 3046636.5201)]
    [InlineData(1000, 1000, 611267.2865, 3047979.7178)]
    [InlineData(2000, 500, 612327.7057, 3048333.1909)]
    public void A_registered_plant_grid_with_axes_north_east_and_north_west_is_reproduced(double x, double y, double easting, double northing)
    {
        // EPSG::15747, similarity (9621): 611267.2865, 3046565.8255, scale 0.9997728332, rotation of the source axes 315 degrees;
        // the points were computed from those parameters with the formula of GN7-2.
        double m = 0.9997728332, cos = Math.Cos(315 * Math.PI / 180), sin = Math.Sin(315 * Math.PI / 180);
        ControlPoint Mark(string name, double xs, double ys) =>
            new(name, new(xs, ys), new(611267.2865 + m * (xs * cos + ys * sin), 3046565.8255 + m * (-xs * sin + ys * cos)), 0.01);
        var fit = SimilarityFit.Solve([Mark("a", 0, 0), Mark("b", 2000, 0), Mark("c", 0, 2000)]).Adjustment!;
        fit.BearingOfXAxisDegrees.ShouldBe(45, 1e-8);
        fit.BearingOfYAxisDegrees.ShouldBe(315, 1e-8);
        fit.Forward(new(x, y)).EastingMetres.ShouldBe(easting, 6e-5);
        fit.Forward(new(x, y)).NorthingMetres.ShouldBe(northing, 6e-5);
    }

    [Fact]
    public void A_rigid_fit_keeps_its_scale_and_takes_the_turn_of_the_similarity()
    {
        var similarity = SimilarityFit.Solve(Marks);
        var rigid = RigidFit.Solve(Marks, scale: similarity.Adjustment!.Scale);
        rigid.Adjustment!.Kind.ShouldBe(AdjustmentKind.Rigid);
        rigid.Adjustment.Scale.ShouldBe(similarity.Adjustment.Scale, 1e-14);
        rigid.Quality!.Redundancy.ShouldBe(7);
        for (var i = 0; i < 5; i++) rigid.Quality.Residuals[i].EastMetres.ShouldBe(similarity.Quality!.Residuals[i].EastMetres, 1e-9);
        rigid.Quality.Residuals.Sum(r => 2 * r.RedundancyNumber).ShouldBe(7, 1e-9);
        var forced = RigidFit.Solve(Marks);
        forced.Adjustment!.Scale.ShouldBe(1, 1e-14);
        // 0.000378 of scale over arms of 360 m is 0.136 m at the four corners and nothing in the middle.
        forced.Quality!.Residuals[0].LengthMetres.ShouldBe(0.000378051 * Math.Sqrt(300 * 300 + 200 * 200), 0.01);
        forced.Quality.Residuals[4].LengthMetres.ShouldBeLessThan(0.005);
        forced.Quality.Warnings.ShouldContain(w => w.Kind == AdjustmentWarningKind.ResidualsTooLarge);
    }

    [Fact]
    public void A_rigid_fit_from_two_marks_is_not_called_checked_although_one_distance_is_left_over()
    {
        var result = RigidFit.Solve(Marks[..2]);
        result.Quality!.Redundancy.ShouldBe(1);
        result.Quality.IsChecked.ShouldBeFalse();
        result.Quality.Warnings.ShouldContain(w => w.Kind == AdjustmentWarningKind.NotChecked);
        RigidFit.Solve(Marks, scale: 0).Refusal!.ShouldContain("fixed scale");
    }

    [Fact]
    public void A_mark_one_kilometre_off_is_named_by_the_w_test()
    {
        var points = Marks.Select((p, i) => i == 3 ? p with { Projected = new(p.Projected.EastingMetres + 1000, p.Projected.NorthingMetres) } : p).ToArray();
        var quality = SimilarityFit.Solve(points).Quality!;
        quality.SuspectMark.ShouldBe("C4");
        quality.GlobalTest!.IsPassed.ShouldBeFalse();
        quality.Warnings.ShouldContain(w => w.Kind == AdjustmentWarningKind.MarkContradicts && w.Text.StartsWith("C4"));
        quality.Predictions.Single(p => p.Name == "C4").EastMetres.ShouldBe(-1000, 0.05);
    }

    [Fact]
    public void A_mark_four_centimetres_off_is_named_too()
    {
        var points = Marks.Select((p, i) => i == 1 ? p with { Projected = new(p.Projected.EastingMetres, p.Projected.NorthingMetres - 0.04) } : p).ToArray();
        SimilarityFit.Solve(points).Quality!.SuspectMark.ShouldBe("C2");
        SimilarityFit.Solve(Marks).Quality!.SuspectMark.ShouldBeNull();
    }

    [Fact]
    public void The_global_test_uses_chi_squared_of_the_redundancy()
    {
        // Tables of chi-squared, 6 degrees of freedom: 1.237 at 2.5 %, 14.449 at 97.5 % (any statistics text).
        var test = SimilarityFit.Solve(Marks).Quality!.GlobalTest!;
        test.LowerLimit.ShouldBe(1.237, 5e-4);
        test.UpperLimit.ShouldBe(14.449, 5e-4);
        test.Statistic.ShouldBe(6 * Math.Pow(0.004211290532451775 / 0.005, 2), 1e-6);
        test.IsPassed.ShouldBeTrue();
    }

    [Fact]
    public void Leaving_a_mark_out_moves_it_by_its_residual_over_its_redundancy_number()
    {
        // Identity of linear least squares (Cook and Weisberg, Residuals and Influence in Regression, 1982, section 2.2).
        foreach (var quality in new[] { SimilarityFit.Solve(Marks).Quality!, AffineFit.Solve(Marks).Quality! })
            foreach (var (residual, prediction) in quality.Residuals.Zip(quality.Predictions))
            {
                prediction.EastMetres.ShouldBe(residual.EastMetres / residual.RedundancyNumber, 1e-7);
                prediction.NorthMetres.ShouldBe(residual.NorthMetres / residual.RedundancyNumber, 1e-7);
            }
    }

    [Fact]
    public void Too_few_marks_or_marks_in_one_line_cannot_carry_an_affine_fit()
    {
        AffineFit.Solve(Marks[..2]).Refusal!.ShouldContain("at least 3");
        AffineFit.Solve([Marks[0], Marks[1], Marks[1] with { Name = "x", Site = new(300, 0), Projected = new(452351.7, 3890614.1) }]).Refusal!.ShouldContain("one line");
        AffineFit.Solve(Marks[..3]).Quality!.IsChecked.ShouldBeFalse();
    }

    [Theory]
    [InlineData(1, SiteDistances.Grid)]
    [InlineData(0.99964, SiteDistances.Ground)]
    [InlineData(0.9991, SiteDistances.Neither)]
    public void The_scale_says_whether_drawings_are_in_grid_or_ground_distances(double scale, SiteDistances expected)
    {
        // 450 km E in zone 31 has the scale factor 0.9996 (1 + 50 km squared / 2 R squared) = 0.99963 (textbook formula).
        var crs = ReferenceFiles.System("gigs A1");
        ControlPoint[] points = [.. new[] { (0, 0), (600, 0), (600, 400), (0, 400) }.Select((p, i) =>
            new ControlPoint($"{i}", new(p.Item1, p.Item2), new(450_000 + scale * p.Item1 + 0.001 * (i % 2), 5_800_000 + scale * p.Item2), 0.002))];
        var found = SiteScale.Judge(SimilarityFit.Solve(points), crs);
        found.PointScaleFactor.ShouldBe(0.9996 * (1 + 50_000.0 * 50_000 / (2 * 6_380_000.0 * 6_380_000)), 2e-6);
        found.Distances.ShouldBe(expected, found.Text);
    }

    [Theory]
    [InlineData(0.010, false)]
    [InlineData(0.030, true)]
    public void A_mark_observed_again_has_moved_when_both_surveys_errors_cannot_explain_it(double moved, bool expected)
    {
        // Chi-squared, 2 degrees of freedom, 99 %: 9.210; with 5 mm each the limit is 21.5 mm.
        var movement = ControlPointMovement.Test(new(1000, 2000), 0.005, new(1000 + moved, 2000), 0.005);
        movement.HasMoved.ShouldBe(expected);
        movement.LengthMetres.ShouldBe(moved, 1e-9);
    }

    [Fact]
    public void Marks_that_do_not_surround_the_site_are_told_with_the_farthest_point()
    {
        ControlPointCover.Look(Marks, [new(10, 10), new(300, 399)]).Warning.ShouldBeNull();
        var cover = ControlPointCover.Look(Marks, [new(10, 10), new(700, 100)]);
        cover.OutsideCount.ShouldBe(1);
        cover.FarthestOutsideMetres.ShouldBe(100, 1e-9);
        cover.Warning!.ShouldContain("do not surround the site");
    }
}
