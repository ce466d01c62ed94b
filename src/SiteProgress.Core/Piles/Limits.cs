namespace SiteProgress.Core.Piles;

/// <summary>The contract tolerances of a zone. They change only by a revision that cites the owner's approval.</summary>
/// <param name="RadialMetres">Largest radial distance of the casing axis from its design position, metres; met at this value (&lt;=).</param>
/// <param name="TopMetres">Largest difference of the as-built top from the design top level, metres, either way (&lt;=).</param>
/// <param name="TipShortMetres">How far above the design tip level the tip may stay, metres (&lt;=).</param>
/// <param name="SandShortRatio">Share of the design sand that may be missing, as a ratio (0.05 = 5 %), (&lt;=).</param>
/// <param name="InclinationDegrees">Largest inclination from the vertical, degrees (&lt;=); absent where the contract sets none.</param>
/// <param name="Approval">Reference of the owner's approval of these limits.</param>
/// <param name="Source">Clause of the contract the limits come from.</param>
public sealed record Limits(
    double RadialMetres,
    double TopMetres,
    double TipShortMetres,
    double SandShortRatio,
    double? InclinationDegrees,
    string Approval,
    string Source);
