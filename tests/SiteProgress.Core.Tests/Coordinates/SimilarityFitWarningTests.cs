using Shouldly;
using SiteProgress.Core.Coordinates;
using Xunit;

namespace SiteProgress.Core.Tests.Coordinates;

public sealed class SimilarityFitWarningTests
{
    private static readonly ControlPoint[] Marks = SimilarityFitTests.FiveMarks;

    [Fact]
    public void Two_marks_are_never_called_checked_however_wrong_one_of_them_is()
    {
        // A typing slip of four metres in A, as seen in an open repository: the two-point fit shows no residual at all.
        ControlPoint[] points = [SimilarityFitTests.Textbook[0] with { Projected = new(1049422.40, 51085.20) }, SimilarityFitTests.Textbook[1]];
        var result = SimilarityFit.Solve(points);
        result.Adjustment!.EastPerX.ShouldBe(-4.49974, 5e-6);
        result.Adjustment.NorthPerX.ShouldBe(-0.25262, 5e-6);
        result.Adjustment.Forward(new(0, 0)).EastingMetres.ShouldBe(1050002.019, 5e-4);
        result.Adjustment.Forward(new(0, 0)).NorthingMetres.ShouldBe(50539.659, 5e-4);
        result.Quality!.IsChecked.ShouldBeFalse();
        result.Quality.StandardErrorOfUnitWeight.ShouldBeNull();
        result.Quality.StandardErrors.ShouldBeNull();
        result.Quality.RootMeanSquareMetres.ShouldBeLessThan(1e-8);
        Kinds(result).ShouldContain(AdjustmentWarningKind.NotChecked);
    }

    [Fact]
    public void Weak_geometry_that_hides_a_blunder_is_named()
    {
        ControlPoint[] points = [SimilarityFitTests.Textbook[0] with { Projected = new(1049422.40, 51085.20) }, .. SimilarityFitTests.Textbook[1..]];
        var result = SimilarityFit.Solve(points);
        result.Quality!.StandardErrorOfUnitWeight!.Value.ShouldBe(0.282, 5e-4);
        result.Quality.Warnings.ShouldContain(w => w.Kind == AdjustmentWarningKind.MarkHardlyChecked && w.Text.StartsWith("A is hardly checked"));
    }

    [Fact]
    public void Swapped_eastings_and_northings_are_named_as_what_they_look_like()
    {
        var swapped = Marks.Select(p => p with { Projected = new(p.Projected.NorthingMetres, p.Projected.EastingMetres) }).ToArray();
        var result = SimilarityFit.Solve(swapped);
        Kinds(result).ShouldContain(AdjustmentWarningKind.AxesLookSwapped);
        Kinds(SimilarityFit.Solve(Marks)).ShouldNotContain(AdjustmentWarningKind.AxesLookSwapped);
    }

    [Fact]
    public void Swapped_site_values_of_the_textbook_example_give_its_large_standard_error()
    {
        var swapped = SimilarityFitTests.Textbook.Select(p => p with { Site = new(p.Site.YMetres, p.Site.XMetres) }).ToArray();
        var result = SimilarityFit.Solve(swapped);
        result.Quality!.StandardErrorOfUnitWeight!.Value.ShouldBe(181.50, 5e-3);
        Kinds(result).ShouldContain(AdjustmentWarningKind.AxesLookSwapped);
    }

    [Fact]
    public void Two_marks_at_one_place_are_named_because_they_check_no_more_than_one()
    {
        ControlPoint[] marks = [.. Marks, Marks[0] with { Name = "again" }];

        SimilarityFit.Solve(marks).Quality!.Warnings.Single(warning => warning.Kind == AdjustmentWarningKind.SamePlace).Text
            .ShouldStartWith($"{Marks[0].Name} and again lie at one place");
        Kinds(SimilarityFit.Solve(Marks)).ShouldNotContain(AdjustmentWarningKind.SamePlace);
    }

    [Fact]
    public void Marks_in_one_line_are_named()
    {
        ControlPoint[] line = [.. Enumerable.Range(0, 3).Select(i => new ControlPoint($"L{i}", new(i * 100, i * 50), new(5000 + i * 100, 6000 + i * 50), 0.01))];
        Kinds(SimilarityFit.Solve(line)).ShouldContain(AdjustmentWarningKind.MarksInOneLine);
        Kinds(SimilarityFit.Solve(Marks)).ShouldNotContain(AdjustmentWarningKind.MarksInOneLine);
    }

    [Fact]
    public void Feet_against_metres_are_named()
    {
        var feet = Marks.Select(p => p with { Site = new(p.Site.XMetres / 0.3048, p.Site.YMetres / 0.3048) }).ToArray();
        SimilarityFit.Solve(feet).Quality!.Warnings.ShouldContain(w => w.Kind == AdjustmentWarningKind.ScaleFarFromOne && w.Text.Contains("feet against metres"));
    }

    [Fact]
    public void Degrees_given_as_metres_are_named()
    {
        var degrees = Marks.Select(p => p with { Projected = new(4.3 + p.Site.XMetres / 65000, 52.1 + p.Site.YMetres / 111000) }).ToArray();
        Kinds(SimilarityFit.Solve(degrees)).ShouldContain(AdjustmentWarningKind.LooksLikeDegrees);
    }

    [Fact]
    public void A_good_set_of_marks_raises_no_warning() => SimilarityFit.Solve(Marks).Quality!.Warnings.ShouldBeEmpty();

    [Fact]
    public void One_mark_cannot_tie_a_grid() =>
        SimilarityFit.Solve(Marks[..1]).Refusal.ShouldBe("1 control point given; this fit needs at least 2, and one more to be checked.");

    [Fact]
    public void Marks_in_one_place_cannot_tie_a_grid()
    {
        SimilarityFit.Solve([Marks[0], Marks[0] with { Name = "again" }]).Refusal!.ShouldContain("one place of the site grid");
        SimilarityFit.Solve([Marks[0], Marks[1] with { Projected = Marks[0].Projected }]).Refusal!.ShouldContain("one place of the projected CRS");
    }

    [Theory]
    [InlineData(double.NaN, 1)]
    [InlineData(100, 0)]
    [InlineData(100, -1)]
    [InlineData(100, double.NaN)]
    public void A_value_that_is_not_a_measurement_is_refused_with_the_marks_name(double x, double deviation) =>
        SimilarityFit.Solve([Marks[0], new("bad one", new(x, 0), Marks[1].Projected, deviation)]).Refusal!.ShouldContain("bad one");

    private static IEnumerable<AdjustmentWarningKind> Kinds(AdjustmentResult result) => result.Quality!.Warnings.Select(w => w.Kind);
}
