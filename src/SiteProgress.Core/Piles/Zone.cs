using SiteProgress.Core.Coordinates;

namespace SiteProgress.Core.Piles;

/// <summary>A part of the improvement area with one design. Levels are metres above the site's level datum, up positive.</summary>
/// <param name="Code">Short code by which the schedule names the zone.</param>
/// <param name="Name">Name for people.</param>
/// <param name="Pattern">How the piles are set out.</param>
/// <param name="SpacingMetres">Spacing along the row, metres.</param>
/// <param name="SecondSpacingMetres">Spacing across the rows of a rectangular pattern, metres.</param>
/// <param name="DesignDiameterMetres">Design diameter of the pile, metres.</param>
/// <param name="TopLevelMetres">Design top level, metres.</param>
/// <param name="TipLevelMetres">Design tip level, metres; absent where only the stop criterion decides.</param>
/// <param name="TipRule">What decides that the tip is deep enough.</param>
/// <param name="StopPenetrationRateMetresPerMinute">Stop criterion: penetration rate at or below this, metres per minute.</param>
/// <param name="LeastLengthMetres">Least length of a pile, metres.</param>
/// <param name="ReplacementRatio">Designed replacement ratio a_s.</param>
/// <param name="SandPerMetreInPile">Design sand, cubic metres in the pile for each metre of pile.</param>
/// <param name="SandSource">Name of the sand source whose C applies unless a record names another.</param>
/// <param name="Limits">Contract tolerances.</param>
/// <param name="AlertRadialMetres">The site's own, tighter radial alert, metres.</param>
/// <param name="RequiredChecks">Checks without which a pile's record is incomplete.</param>
/// <param name="Outline">Corners of the zone on the site grid, metres, as [x, y] pairs; it bounds layouts and the ground that belongs to outer piles, and no pile is judged by it.</param>
/// <param name="LotRules">What a lot of its piles is judged by; null where the contract sets no lot rules.</param>
/// <param name="Alerts">The site's own alerts beside the radial one; null where it sets none.</param>
/// <param name="LogConstants">Numbers by which logs of this zone are read, by name; null for those of the site.</param>
public sealed record Zone(
    string Code,
    string Name,
    Pattern Pattern,
    double SpacingMetres,
    double? SecondSpacingMetres,
    double DesignDiameterMetres,
    double TopLevelMetres,
    double? TipLevelMetres,
    TipRule TipRule,
    double? StopPenetrationRateMetresPerMinute,
    double? LeastLengthMetres,
    double ReplacementRatio,
    double SandPerMetreInPile,
    string SandSource,
    Limits Limits,
    double? AlertRadialMetres,
    IReadOnlyList<CheckName> RequiredChecks,
    IReadOnlyList<double[]> Outline,
    LotRules? LotRules = null,
    Alerts? Alerts = null,
    IReadOnlyDictionary<string, double>? LogConstants = null)
{
    /// <summary>Half the smallest spacing, metres: a pile nearer than this to a design position can only be that pile.</summary>
    public double ReachMetres => Math.Min(SpacingMetres, SecondSpacingMetres ?? SpacingMetres) / 2;

    /// <summary>The corners of the outline; a first corner that is named again at the end is left out.</summary>
    public IReadOnlyList<SiteCoordinate> Corners()
    {
        SiteCoordinate[] corners = [.. Outline.Select(corner => new SiteCoordinate(corner[0], corner[1]))];
        return corners.Length > 1 && corners[0] == corners[^1] ? corners[..^1] : corners;
    }
}
