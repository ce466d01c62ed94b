namespace SiteProgress.Core.Piles;

/// <summary>
/// One row of a pile schedule as the designer wrote it, before it is put on the site grid.
/// Levels are metres above the site's level datum, up positive.
/// </summary>
/// <param name="Number">Pile number.</param>
/// <param name="Zone">Zone the schedule names.</param>
/// <param name="Position">Design position in the frame of the schedule.</param>
/// <param name="DiameterMetres">Design diameter, metres; the zone's where the schedule leaves it out.</param>
/// <param name="TopLevelMetres">Design top level, metres; the zone's where left out.</param>
/// <param name="TipLevelMetres">Design tip level, metres; the zone's where left out.</param>
/// <param name="LeastLengthMetres">Least length, metres; the zone's where left out.</param>
/// <param name="Remark">The designer's remark.</param>
public sealed record AsPlanned(
    string Number,
    string Zone,
    RecordedPosition Position,
    double? DiameterMetres,
    double? TopLevelMetres,
    double? TipLevelMetres,
    double? LeastLengthMetres,
    Remark? Remark);
