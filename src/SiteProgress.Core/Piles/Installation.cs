using NodaTime;

namespace SiteProgress.Core.Piles;

/// <summary>
/// One attempt at one pile by one casing, as recorded. What the record does not hold is null, never zero.
/// Levels are metres above the site's level datum, up positive; sand is loose volume in the casing, cubic metres.
/// </summary>
/// <param name="RecordId">The sender's own identifier of the record.</param>
/// <param name="PileNumber">Pile number as the crew recorded it.</param>
/// <param name="Barge">Barge.</param>
/// <param name="Casing">Number of the casing on the barge.</param>
/// <param name="SetUp">The barge position from which it was built.</param>
/// <param name="Start">Casing touched down and began to penetrate.</param>
/// <param name="EndOfPenetration">Casing tip at its deepest.</param>
/// <param name="End">Casing left the pile; decides the working day.</param>
/// <param name="TouchDown">Casing axis at touch-down.</param>
/// <param name="AtEndOfPenetration">Casing axis at the end of penetration.</param>
/// <param name="HeadingDegrees">Heading of the barge, degrees clockwise from the north named beside it.</param>
/// <param name="HeadingNorth">The north the heading is counted from.</param>
/// <param name="TopLevelMetres">As-built top level, metres.</param>
/// <param name="TipLevelMetres">Tip level, metres.</param>
/// <param name="SandInCasing">Sand that left the casing, loose volume in the casing, cubic metres.</param>
/// <param name="InclinationDegrees">Inclination of the casing from the vertical, degrees.</param>
/// <param name="StopRateMetresPerMinute">Penetration rate when penetration was stopped, metres per minute.</param>
/// <param name="Fix">Kind of satellite fix.</param>
/// <param name="UncertaintyMetres">Uncertainty of the position (95 %), metres.</param>
/// <param name="Outcome">How the attempt ended.</param>
/// <param name="Remark">The crew's remark.</param>
/// <param name="Depths">Depths recorded in the place of levels.</param>
/// <param name="CorrectionAgeSeconds">Age of the correction behind the satellite fix, seconds.</param>
/// <param name="CoordinateEpoch">Epoch of the coordinates, as a year with decimals.</param>
public sealed record Installation(
    string? RecordId,
    string PileNumber,
    string Barge,
    int? Casing,
    string? SetUp,
    Instant? Start,
    Instant? EndOfPenetration,
    Instant? End,
    RecordedPosition? TouchDown,
    RecordedPosition? AtEndOfPenetration,
    double? HeadingDegrees,
    North? HeadingNorth,
    double? TopLevelMetres,
    double? TipLevelMetres,
    double? SandInCasing,
    double? InclinationDegrees,
    double? StopRateMetresPerMinute,
    FixType? Fix,
    double? UncertaintyMetres,
    Outcome Outcome,
    Remark? Remark,
    RecordedDepths? Depths = null,
    double? CorrectionAgeSeconds = null,
    double? CoordinateEpoch = null);

/// <summary>The north a heading is counted from.</summary>
public enum North
{
    /// <summary>True north: the meridian.</summary>
    TrueNorth = 1,

    /// <summary>Grid north of the projected CRS.</summary>
    CrsGrid = 2,

    /// <summary>The second axis of the site grid.</summary>
    SiteGrid = 3,
}
