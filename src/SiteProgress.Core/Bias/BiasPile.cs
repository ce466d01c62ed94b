using NodaTime;
using SiteProgress.Core.Deviations;

namespace SiteProgress.Core.Bias;

/// <summary>One built pile as the search for bias sees it. East and north are the axes of the projected CRS grid, ground metres.</summary>
/// <param name="Number">Pile number.</param>
/// <param name="Barge">Barge that completed it.</param>
/// <param name="Casing">Casing; null where the record does not say.</param>
/// <param name="SetUp">Set-up it was built from; null where the record does not say, and then it counts as a set-up of its own.</param>
/// <param name="Zone">Zone; null where not known.</param>
/// <param name="Ended">When the casing left it; null where the record does not say.</param>
/// <param name="Day">Working day.</param>
/// <param name="HeadingDegrees">Heading of the barge, degrees clockwise from CRS grid north; null where the record does not say.</param>
/// <param name="EastMetres">Design position, metres.</param>
/// <param name="NorthMetres">Design position, metres.</param>
/// <param name="DeviationEastMetres">As-built minus planned, east, of a fixed moment: the farther of two positions would lean outward.</param>
/// <param name="DeviationNorthMetres">As-built minus planned, north, of the same moment.</param>
/// <param name="JudgedEastMetres">Deviation the pile is judged by, east.</param>
/// <param name="JudgedNorthMetres">Deviation the pile is judged by, north.</param>
/// <param name="Limit">Limit in force for its position.</param>
public sealed record BiasPile(
    string Number,
    string Barge,
    int? Casing,
    string? SetUp,
    string? Zone,
    Instant? Ended,
    LocalDate? Day,
    double? HeadingDegrees,
    double EastMetres,
    double NorthMetres,
    double DeviationEastMetres,
    double DeviationNorthMetres,
    double JudgedEastMetres,
    double JudgedNorthMetres,
    PositionLimit Limit)
{
    /// <summary>True when every number of it is finite.</summary>
    internal bool IsFinite => double.IsFinite(EastMetres + NorthMetres + DeviationEastMetres + DeviationNorthMetres);
}

/// <summary>Where a casing stands on its barge, metres from the barge's reference point.</summary>
/// <param name="Barge">Barge.</param>
/// <param name="Casing">Casing.</param>
/// <param name="ForwardMetres">Forward, metres.</param>
/// <param name="StarboardMetres">To starboard, metres.</param>
public sealed record CasingArm(string Barge, int Casing, double ForwardMetres, double StarboardMetres);

/// <summary>What the search for bias takes from the site.</summary>
/// <param name="Arms">Where the casings stand.</param>
/// <param name="ConvergenceDegrees">Grid convergence in the middle of the site, degrees: CRS grid north lies this far clockwise from true north.</param>
/// <param name="LeastSizeMetres">Nothing smaller than this is named, metres.</param>
public sealed record BiasSite(IReadOnlyList<CasingArm> Arms, double ConvergenceDegrees, double LeastSizeMetres)
{
    /// <summary>The size below which nothing is named unless the site says otherwise: 0.03 m.</summary>
    public static double UsualLeastSizeMetres => 0.03;
}
