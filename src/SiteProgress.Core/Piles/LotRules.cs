namespace SiteProgress.Core.Piles;

/// <summary>What a lot of piles of one zone is judged by, besides the checks of each pile. A rule left out is not asked.</summary>
/// <param name="LeastShareWithinRatio">Least share of piles within the radial limit, a ratio (&gt;=).</param>
/// <param name="AbsoluteRadialMetres">Radial deviation that no pile of a lot may exceed, metres (&lt;=).</param>
/// <param name="LeastMeanSandRatio">Least mean of sand in pile divided by design sand, a ratio (&gt;=).</param>
/// <param name="LeastMeanReplacementRatio">Least mean as-built replacement ratio a_s (&gt;=).</param>
/// <param name="LeastSptBlows">Least SPT N after improvement, blows for 300 mm (&gt;=).</param>
/// <param name="Source">Clause of the contract the rules come from.</param>
public sealed record LotRules(
    double? LeastShareWithinRatio,
    double? AbsoluteRadialMetres,
    double? LeastMeanSandRatio,
    double? LeastMeanReplacementRatio,
    double? LeastSptBlows,
    string Source);
