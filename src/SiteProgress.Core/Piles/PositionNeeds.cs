namespace SiteProgress.Core.Piles;

/// <summary>
/// What the site requires of a position before it is held against the limit, beside an RTK-fixed solution. What is required
/// and not on the record leaves the position not judged.
/// </summary>
/// <param name="MostCorrectionAgeSeconds">Oldest correction of the satellite fix allowed, seconds; null where none is required.</param>
/// <param name="MostUncertaintyMetres">Largest uncertainty (95 %) a record may state, metres; a record that states none is not judged. Null where none is required.</param>
/// <param name="CoordinateEpoch">True where the record must say at which epoch its coordinates are.</param>
/// <param name="Calibration">True where a calibration of the casing must hold at the moment of the record.</param>
/// <param name="HeadingNorth">True where the record must state a heading and its north.</param>
public sealed record PositionNeeds(
    double? MostCorrectionAgeSeconds = null,
    double? MostUncertaintyMetres = null,
    bool CoordinateEpoch = false,
    bool Calibration = false,
    bool HeadingNorth = false);

/// <summary>
/// Height of the site's level datum above the ellipsoid: a plane over the site grid, fitted to marks whose level and height are
/// both known.
/// </summary>
/// <param name="SeparationMetres">Height of the datum's zero above the ellipsoid at site-grid origin, metres.</param>
/// <param name="AlongFirstAxisRatio">Rise of it for each metre along the first axis, a ratio.</param>
/// <param name="AlongSecondAxisRatio">Rise of it for each metre along the second axis, a ratio.</param>
/// <param name="Source">Where it comes from.</param>
public sealed record HeightModel(double SeparationMetres, double AlongFirstAxisRatio, double AlongSecondAxisRatio, string Source);
