namespace SiteProgress.Core.Piles;

/// <summary>What a recorded depth is counted from.</summary>
public enum DepthBelow
{
    /// <summary>The water surface at the moment.</summary>
    Water = 1,

    /// <summary>The deck at the casing.</summary>
    Deck = 2,

    /// <summary>The antenna, whose height above the ellipsoid is recorded beside it.</summary>
    Antenna = 3,
}

/// <summary>
/// Depths a record holds in the place of levels, as they were recorded; the levels are derived from them. What was not recorded
/// is null. Depths are down positive.
/// </summary>
/// <param name="Below">What the depths are counted from.</param>
/// <param name="TipMetres">Casing tip at the end of penetration, metres below it.</param>
/// <param name="TopMetres">As-built top, read when the casing left the pile, metres below it.</param>
/// <param name="FreeboardMetres">Deck at the casing above the water, metres, where the record states it.</param>
/// <param name="DraughtMetres">Draught at the barge's reference point, metres.</param>
/// <param name="ForeDraughtMetres">Reading of the fore draught mark, metres.</param>
/// <param name="AftDraughtMetres">Reading of the aft draught mark, metres.</param>
/// <param name="ListDegrees">List, degrees, positive with starboard down.</param>
/// <param name="TrimDegrees">Trim, degrees, positive with the bow down.</param>
/// <param name="AntennaHeightAtTipMetres">Antenna above the ellipsoid at the end of penetration, metres.</param>
/// <param name="AntennaHeightAtTopMetres">Antenna above the ellipsoid when the casing left the pile, metres.</param>
public sealed record RecordedDepths(
    DepthBelow Below,
    double? TipMetres,
    double? TopMetres,
    double? FreeboardMetres = null,
    double? DraughtMetres = null,
    double? ForeDraughtMetres = null,
    double? AftDraughtMetres = null,
    double? ListDegrees = null,
    double? TrimDegrees = null,
    double? AntennaHeightAtTipMetres = null,
    double? AntennaHeightAtTopMetres = null);
