namespace SiteProgress.Core.Design.Layouts;

/// <summary>What a layout amounts to. Metres, square metres, cubic metres; ratios are pure numbers.</summary>
/// <param name="Piles">Number of piles.</param>
/// <param name="Rows">Number of rows that hold piles.</param>
/// <param name="AreaSquareMetres">Area inside the outline, the parts left out taken off.</param>
/// <param name="SpacingMetres">Spacing along the row.</param>
/// <param name="SecondSpacingMetres">Spacing across the rows of a rectangular pattern.</param>
/// <param name="RowSpacingMetres">From one row to the next.</param>
/// <param name="CellSquareMetres">Area of ground for each pile.</param>
/// <param name="CellDiameterMetres">Diameter of the circle of that area.</param>
/// <param name="RatioByCell">a_s of the pattern: a pile over its cell.</param>
/// <param name="RatioByArea">a_s of the piles that stand, over the whole area: edges and corners make the difference.</param>
/// <param name="ClearMetres">Between the faces of the piles that stand closest.</param>
/// <param name="LengthMetres">Length of a pile: top to tip, else the least length; null where neither is set.</param>
/// <param name="IsLeastLength">True where the length is the least length.</param>
/// <param name="SandPerMetreInPile">Sand in each metre of pile.</param>
/// <param name="SandInPile">Sand in one pile.</param>
/// <param name="SandInCasing">The same loose in the casing, by C; null where C is not known.</param>
public sealed record LayoutFigures(
    int Piles,
    int Rows,
    double AreaSquareMetres,
    double SpacingMetres,
    double? SecondSpacingMetres,
    double RowSpacingMetres,
    double CellSquareMetres,
    double CellDiameterMetres,
    double RatioByCell,
    double RatioByArea,
    double ClearMetres,
    double? LengthMetres,
    bool IsLeastLength,
    double SandPerMetreInPile,
    double? SandInPile,
    double? SandInCasing)
{
    /// <summary>Metres of pile in all.</summary>
    public double? TotalMetres => LengthMetres * Piles;

    /// <summary>Sand in all piles.</summary>
    public double? TotalInPile => SandInPile * Piles;

    /// <summary>The same loose in the casing.</summary>
    public double? TotalInCasing => SandInCasing * Piles;

    internal static LayoutFigures Of(LayoutInputs inputs, double area, IReadOnlyList<LaidPile> piles, double spacing, double? second)
    {
        double cell = PatternGeometry.CellArea(inputs.Pattern, spacing, second);
        double pileArea = PatternGeometry.PileArea(inputs.DiameterMetres);
        double? length = inputs.TipLevelMetres is { } tip ? inputs.TopLevelMetres - tip : inputs.LeastLengthMetres;
        return new LayoutFigures(
            piles.Count,
            piles.Select(pile => pile.Row).Distinct().Count(),
            area,
            spacing,
            second,
            PatternGeometry.RowSpacing(inputs.Pattern, spacing, second),
            cell,
            PatternGeometry.UnitCellDiameter(cell),
            PatternGeometry.ReplacementRatio(inputs.DiameterMetres, cell),
            piles.Count * pileArea / area,
            PatternGeometry.LeastSpacing(inputs.Pattern, spacing, second) - inputs.DiameterMetres,
            length,
            inputs.TipLevelMetres is null && length is not null,
            pileArea,
            length * pileArea,
            length * pileArea / inputs.VolumeChangeFactor);
    }
}
