using NodaTime;

namespace SiteProgress.Core.Piles;

/// <summary>
/// What was measured of a barge, or of one of its casings, and holds from a moment on until the next calibration of the same
/// barge or casing. What was not measured is null. Offsets are from the barge's reference point, metres.
/// </summary>
/// <param name="Barge">Barge.</param>
/// <param name="Casing">Number of the casing; null for what holds for the barge as a whole.</param>
/// <param name="ValidFrom">From when it holds.</param>
/// <param name="Evidence">Where it comes from: the report, the drawing, the survey.</param>
/// <param name="ForwardMetres">Casing axis forward of the reference point, metres.</param>
/// <param name="StarboardMetres">Casing axis to starboard of the reference point, metres.</param>
/// <param name="InnerAreaSquareMetres">Inner area of the casing, square metres; sand left in the ground is this area times the fall of the sand.</param>
/// <param name="EncoderZeroMetres">What the depth encoder shows while the casing tip is at deck level, metres.</param>
/// <param name="GaugeZeroMetres">What the sand gauge shows in the empty casing, metres.</param>
/// <param name="AntennaForwardMetres">Antenna forward of the reference point, metres.</param>
/// <param name="AntennaStarboardMetres">Antenna to starboard of the reference point, metres.</param>
/// <param name="AntennaAboveDeckMetres">Antenna above the deck at the reference point, metres.</param>
/// <param name="HeadingAlignmentDegrees">What is added to the heading the barge's system shows, degrees clockwise.</param>
/// <param name="DeckAboveKeelMetres">Deck above the keel at the reference point, metres; freeboard is this less the draught.</param>
/// <param name="ForeMarkMetres">Fore draught mark forward of the reference point, metres.</param>
/// <param name="ForeMarkZeroMetres">What is added to a reading of the fore draught mark, metres.</param>
/// <param name="AftMarkMetres">Aft draught mark forward of the reference point, metres; negative where it lies aft.</param>
/// <param name="AftMarkZeroMetres">What is added to a reading of the aft draught mark, metres.</param>
/// <param name="Remark">The surveyor's remark.</param>
public sealed record Calibration(
    string Barge,
    int? Casing,
    Instant ValidFrom,
    string Evidence,
    double? ForwardMetres = null,
    double? StarboardMetres = null,
    double? InnerAreaSquareMetres = null,
    double? EncoderZeroMetres = null,
    double? GaugeZeroMetres = null,
    double? AntennaForwardMetres = null,
    double? AntennaStarboardMetres = null,
    double? AntennaAboveDeckMetres = null,
    double? HeadingAlignmentDegrees = null,
    double? DeckAboveKeelMetres = null,
    double? ForeMarkMetres = null,
    double? ForeMarkZeroMetres = null,
    double? AftMarkMetres = null,
    double? AftMarkZeroMetres = null,
    string? Remark = null);
