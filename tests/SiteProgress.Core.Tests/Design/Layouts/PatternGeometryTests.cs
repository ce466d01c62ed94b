using Shouldly;
using SiteProgress.Core.Design.Layouts;
using SiteProgress.Core.Piles;
using Xunit;

namespace SiteProgress.Core.Tests.Design.Layouts;

/// <summary>
/// Formulas from outside: a course's tutorials on ground improvement (cpmech/civl7215-code: C = π/(2√3) for triangles, π/4 for squares,
/// de = 2s/√π) and a drain-design input file that states 1.05 S and 1.13 S. The same stand in Barksdale and Bachus, FHWA/RD-83/026 (from memory).
/// </summary>
public sealed class PatternGeometryTests
{
    // 0.8 at 1.5 triangular (0.26) and 0.8 at 2.4 square (0.087) stand in the tutorial's printed output; the others are worked out by its formulas.
    [Theory]
    [InlineData(0.7, 1.7, 0.1332, 0.1538, 1.9182, 1.7851)]
    [InlineData(0.8, 1.5, 0.2234, 0.2580, 1.6926, 1.5751)]
    [InlineData(0.8, 2.4, 0.0873, 0.1008, 2.7081, 2.5202)]
    [InlineData(1.6, 1.8, 0.6206, 0.7166, 2.0311, 1.8901)]
    [InlineData(2.0, 2.1, 0.7124, 0.8226, 2.3696, 2.2052)]
    public void Replacement_ratio_and_unit_cell_are_those_of_the_table(double diameter, double spacing, double square, double triangle, double squareCell, double triangleCell)
    {
        foreach ((Pattern pattern, double ratio, double cell) in new[] { (Pattern.Square, square, squareCell), (Pattern.Triangular, triangle, triangleCell) })
        {
            double area = PatternGeometry.CellArea(pattern, spacing);
            PatternGeometry.ReplacementRatio(diameter, area).ShouldBe(ratio, 0.00005 + 1e-9); // The table has four decimals.
            PatternGeometry.UnitCellDiameter(area).ShouldBe(cell, 0.00005 + 1e-9);
            PatternGeometry.ReplacementRatio(diameter, area).ShouldBe(Math.Pow(diameter / PatternGeometry.UnitCellDiameter(area), 2), 1e-12);
        }
    }

    [Fact]
    public void The_unit_cell_of_squares_is_1_13_and_of_triangles_1_05_spacings_wide()
    {
        PatternGeometry.UnitCellDiameter(PatternGeometry.CellArea(Pattern.Square, 1)).ShouldBe(1.12838, 0.000005);
        PatternGeometry.UnitCellDiameter(PatternGeometry.CellArea(Pattern.Triangular, 1)).ShouldBe(1.05008, 0.00001);
    }

    // Worked out by the same formulas for piles of 2.0 m.
    [Theory]
    [InlineData(0.25, 3.5449, 3.8093, 5.9840)]
    [InlineData(0.40, 2.8025, 3.0115, 3.7400)]
    [InlineData(0.60, 2.2882, 2.4589, 2.4933)]
    [InlineData(0.70, 2.1185, 2.2765, 2.1371)]
    [InlineData(0.78, 2.0069, 2.1566, 1.9179)]
    public void The_spacing_for_a_ratio_is_that_of_the_table(double ratio, double square, double triangle, double acrossRowsOf2_1)
    {
        PatternGeometry.SpacingFor(Pattern.Square, 2, ratio, 0).ShouldBe(square, 0.000051);
        PatternGeometry.SpacingFor(Pattern.Triangular, 2, ratio, 0).ShouldBe(triangle, 0.000051);
        PatternGeometry.SpacingFor(Pattern.Rectangular, 2, ratio, 2.1).ShouldBe(acrossRowsOf2_1, 0.000051);
    }

    [Fact]
    public void Circles_touch_at_0_7854_in_squares_and_0_9069_in_triangles()
    {
        PatternGeometry.TouchingRatio(Pattern.Square, 2, 0).ShouldBe(0.7854, 0.00005);
        PatternGeometry.TouchingRatio(Pattern.Triangular, 2, 0).ShouldBe(0.9069, 0.00005);
        PatternGeometry.ReplacementRatio(2, PatternGeometry.CellArea(Pattern.Rectangular, 2.1, 2)).ShouldBe(PatternGeometry.TouchingRatio(Pattern.Rectangular, 2, 2.1), 1e-12);
    }
}
