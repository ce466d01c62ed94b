using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Design.Layouts;

/// <summary>
/// What a pattern of piles amounts to in plan: area of ground for each pile (its unit cell), replacement ratio and the circle of the
/// same area. Lengths are metres, areas square metres.
/// </summary>
/// <remarks>
/// Plane geometry: a_s is the area of the pile over that of its cell. The same formulas stand in textbooks on vertical drains and
/// stone columns (equivalent diameter 1.13 s for squares, 1.05 s for triangles).
/// </remarks>
public static class PatternGeometry
{
    /// <summary>Area of ground for each pile.</summary>
    /// <param name="pattern">How the piles are set out.</param>
    /// <param name="spacing">Spacing along the row; of triangles the one spacing.</param>
    /// <param name="secondSpacing">Spacing across the rows of a rectangular pattern; not read for others.</param>
    public static double CellArea(Pattern pattern, double spacing, double? secondSpacing = null) => spacing * RowSpacing(pattern, spacing, secondSpacing);

    /// <summary>Distance from one row to the next.</summary>
    public static double RowSpacing(Pattern pattern, double spacing, double? secondSpacing = null) => pattern switch
    {
        Pattern.Rectangular => secondSpacing ?? spacing,
        Pattern.Triangular => spacing * Math.Sqrt(3) / 2,
        _ => spacing,
    };

    /// <summary>Distance of two piles that stand closest.</summary>
    public static double LeastSpacing(Pattern pattern, double spacing, double? secondSpacing = null)
        => pattern == Pattern.Rectangular ? Math.Min(spacing, secondSpacing ?? spacing) : spacing;

    /// <summary>Replacement ratio a_s of a pile in a cell: πD²/4 over the area.</summary>
    public static double ReplacementRatio(double diameter, double cellArea) => PileArea(diameter) / cellArea;

    /// <summary>Diameter of the circle with the area of the cell, so that a_s = (D / this)².</summary>
    public static double UnitCellDiameter(double cellArea) => 2 * Math.Sqrt(cellArea / Math.PI);

    /// <summary>Area of a pile in plan.</summary>
    public static double PileArea(double diameter) => Math.PI * diameter * diameter / 4;

    /// <summary>The a_s at which neighbouring piles touch: π/4 for squares, π/(2√3) for triangles, πD/(4 s1) for rectangles whose rows touch.</summary>
    /// <param name="pattern">How the piles are set out.</param>
    /// <param name="diameter">Diameter of the pile.</param>
    /// <param name="spacing">Spacing along the row of a rectangular pattern; not read for others.</param>
    public static double TouchingRatio(Pattern pattern, double diameter, double spacing) => pattern switch
    {
        Pattern.Rectangular => Math.PI * diameter / (4 * spacing),
        Pattern.Triangular => Math.PI / (2 * Math.Sqrt(3)),
        _ => Math.PI / 4,
    };

    /// <summary>The spacing that gives a replacement ratio; of a rectangular pattern the second spacing, the first being given.</summary>
    /// <param name="pattern">How the piles are set out.</param>
    /// <param name="diameter">Diameter of the pile.</param>
    /// <param name="ratio">Replacement ratio a_s.</param>
    /// <param name="spacing">Spacing along the row of a rectangular pattern; not read for others.</param>
    public static double SpacingFor(Pattern pattern, double diameter, double ratio, double spacing)
    {
        double cell = PileArea(diameter) / ratio;
        return pattern switch
        {
            Pattern.Rectangular => cell / spacing,
            Pattern.Triangular => Math.Sqrt(2 * cell / Math.Sqrt(3)),
            _ => Math.Sqrt(cell),
        };
    }
}
