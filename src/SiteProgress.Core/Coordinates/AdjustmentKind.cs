namespace SiteProgress.Core.Coordinates;

/// <summary>How freely the site grid may lie in the projected CRS.</summary>
public enum AdjustmentKind
{
    /// <summary>Shift, turn and one scale: four parameters. The usual choice.</summary>
    Similarity,

    /// <summary>Shift and turn, the scale held fixed: three parameters.</summary>
    Rigid,

    /// <summary>Each axis with its own scale and direction: six parameters. Bends the grid to the marks; for old, distorted grids only.</summary>
    Affine,
}
