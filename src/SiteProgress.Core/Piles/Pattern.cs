namespace SiteProgress.Core.Piles;

/// <summary>How the piles of a zone are set out.</summary>
public enum Pattern
{
    /// <summary>One spacing both ways.</summary>
    Square = 1,

    /// <summary>One spacing along the row, another across.</summary>
    Rectangular = 2,

    /// <summary>Equilateral triangles of one spacing.</summary>
    Triangular = 3,
}
