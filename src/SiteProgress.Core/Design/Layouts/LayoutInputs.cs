using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Design.Layouts;

/// <summary>What a layout of planned piles is made from. Lengths are metres, coordinates on the site grid, levels above the site's level datum, up positive.</summary>
/// <param name="Zone">Code of the zone the piles belong to.</param>
/// <param name="Rings">Corners of the area, then of parts left out.</param>
/// <param name="Pattern">How the piles are set out.</param>
/// <param name="SpacingMetres">Spacing along the row; null where <paramref name="ReplacementRatio"/> gives it.</param>
/// <param name="SecondSpacingMetres">Spacing across the rows of a rectangular pattern; null where <paramref name="ReplacementRatio"/> gives it.</param>
/// <param name="ReplacementRatio">The a_s from which a spacing that is not given follows.</param>
/// <param name="Origin">A place at which the pattern has a pile, whether or not it lies inside.</param>
/// <param name="RotationDegrees">Direction of the rows: from the first axis of the site grid towards the second, degrees.</param>
/// <param name="EdgeMetres">How far inside the boundary the centre of a pile lies at least (&gt;=).</param>
/// <param name="DiameterMetres">Design diameter.</param>
/// <param name="TopLevelMetres">Design top level.</param>
/// <param name="TipLevelMetres">Design tip level; null where only the stop criterion decides.</param>
/// <param name="LeastLengthMetres">Least length, where one is set.</param>
/// <param name="VolumeChangeFactor">C of the zone's sand source: volume in the pile over loose volume in the casing; null where it is not known.</param>
/// <param name="Numbering">How the piles are numbered.</param>
public sealed record LayoutInputs(
    string Zone,
    IReadOnlyList<IReadOnlyList<SiteCoordinate>> Rings,
    Pattern Pattern,
    double? SpacingMetres,
    double? SecondSpacingMetres,
    double? ReplacementRatio,
    SiteCoordinate Origin,
    double RotationDegrees,
    double EdgeMetres,
    double DiameterMetres,
    double TopLevelMetres,
    double? TipLevelMetres,
    double? LeastLengthMetres,
    double? VolumeChangeFactor,
    NumberingRule Numbering);
