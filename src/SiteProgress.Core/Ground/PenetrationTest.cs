using NodaTime;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Ground;

/// <summary>
/// One standard penetration test of a ground investigation, as reported. What the report does not hold is null. N counts the
/// blows of the main drive, the last two of three increments of 150 mm; seating blows do not count (EN ISO 22476-3).
/// </summary>
/// <param name="Location">Borehole.</param>
/// <param name="Position">Where the borehole is, in the frame of the file.</param>
/// <param name="GroundLevelMetres">Level of the ground, metres above the site's level datum.</param>
/// <param name="TopDepthMetres">Depth of the top of the test below the ground, metres.</param>
/// <param name="Blows">N as reported.</param>
/// <param name="SeatingBlows">Blows of the seating drive.</param>
/// <param name="MainBlows">Blows of the main drive.</param>
/// <param name="PenetrationMillimetres">Penetration of seating and main drive together, millimetres.</param>
/// <param name="EnergyRatioPercent">Energy ratio of the hammer, percent.</param>
/// <param name="Type">S for a split spoon, C for a solid cone, as reported.</param>
/// <param name="Reported">The result as the report words it, such as "6,8/8,9,9,9 N=35" or "50/80 mm": it may say more than N.</param>
/// <param name="Remark">Remark.</param>
/// <param name="TestedOn">Day of the test, else the last day of work on its borehole.</param>
public sealed record PenetrationTest(
    string Location,
    RecordedPosition? Position,
    double? GroundLevelMetres,
    double TopDepthMetres,
    int? Blows,
    int? SeatingBlows,
    int? MainBlows,
    int? PenetrationMillimetres,
    double? EnergyRatioPercent,
    string? Type,
    string? Reported,
    string? Remark,
    LocalDate? TestedOn = null);
