namespace SiteProgress.Core.Piles;

/// <summary>
/// The contract tolerances of a zone. They change only by a revision that cites the owner's approval. Of the position the contract sets a
/// radial limit, as a length or as a share of the design diameter (of both the smaller holds), limits along the axes of the site grid, or
/// all of these; a position must keep every one that is set.
/// </summary>
/// <param name="RadialMetres">Largest radial distance of the casing axis from its design position, metres; met at this value (&lt;=).</param>
/// <param name="TopMetres">Largest difference of the as-built top from the design top level, metres, either way (&lt;=).</param>
/// <param name="TipShortMetres">How far above the design tip level the tip may stay, metres (&lt;=).</param>
/// <param name="SandShortRatio">Share of the design sand that may be missing, as a ratio (0.05 = 5 %), (&lt;=).</param>
/// <param name="InclinationDegrees">Largest inclination from the vertical, degrees (&lt;=); absent where the contract sets none.</param>
/// <param name="Approval">Reference of the owner's approval of these limits.</param>
/// <param name="Source">Clause of the contract the limits come from.</param>
/// <param name="RadialDiameterRatio">Largest radial distance as a share of the pile's design diameter (0.1 = a tenth), (&lt;=).</param>
/// <param name="AlongMetres">Largest deviation along the first axis of the site grid, metres, either way (&lt;=).</param>
/// <param name="AcrossMetres">Largest deviation along the second axis of the site grid, metres, either way (&lt;=).</param>
/// <param name="DiameterShortRatio">Share of the design diameter by which the least equivalent diameter over a metre may fall short (0.1 = a tenth), (&lt;=).</param>
/// <param name="GapMetres">Longest rise of the casing in which the sand may stay in it without a later pass, metres (&lt;=).</param>
/// <param name="MetreSandShortRatio">Share of the design sand that may be missing in any one metre, where there is a log, (&lt;=).</param>
public sealed record Limits(
    double? RadialMetres,
    double TopMetres,
    double TipShortMetres,
    double SandShortRatio,
    double? InclinationDegrees,
    string Approval,
    string Source,
    double? RadialDiameterRatio = null,
    double? AlongMetres = null,
    double? AcrossMetres = null,
    double? DiameterShortRatio = null,
    double? GapMetres = null,
    double? MetreSandShortRatio = null);

/// <summary>The site's own alerts beside the radial one, each tighter than its limit; beyond them a pile is met and marked.</summary>
/// <param name="RadialDiameterRatio">Radial deviation as a share of the design diameter.</param>
/// <param name="AlongMetres">Deviation along the first axis of the site grid, metres, either way.</param>
/// <param name="AcrossMetres">Deviation along the second axis of the site grid, metres, either way.</param>
/// <param name="TopMetres">As-built top from the design top level, metres, either way.</param>
/// <param name="TipShortMetres">As-built tip above the design tip level, metres.</param>
/// <param name="InclinationDegrees">Inclination from the vertical, degrees.</param>
public sealed record Alerts(
    double? RadialDiameterRatio = null,
    double? AlongMetres = null,
    double? AcrossMetres = null,
    double? TopMetres = null,
    double? TipShortMetres = null,
    double? InclinationDegrees = null);
