using SiteProgress.Core.Coordinates;

namespace SiteProgress.Core.Piles;

/// <summary>A pile of the design in force. Levels are metres above the site's level datum, up positive.</summary>
/// <param name="Sequence">Sequence of the record it comes from.</param>
/// <param name="Number">Pile number.</param>
/// <param name="Zone">Zone the schedule names.</param>
/// <param name="Position">Design position on the site grid.</param>
/// <param name="DiameterMetres">Design diameter, metres.</param>
/// <param name="TopLevelMetres">Design top level, metres.</param>
/// <param name="TipLevelMetres">Design tip level, metres; absent where only the stop criterion decides.</param>
/// <param name="LeastLengthMetres">Least length, metres, where one is set.</param>
/// <param name="Remark">The designer's remark.</param>
public sealed record PlannedPile(
    long Sequence,
    string Number,
    string Zone,
    SiteCoordinate Position,
    double DiameterMetres,
    double TopLevelMetres,
    double? TipLevelMetres,
    double? LeastLengthMetres,
    Remark? Remark)
{
    /// <summary>The same pile under a number; itself where it bears it already.</summary>
    internal PlannedPile Under(string number) => string.Equals(Number, number, StringComparison.Ordinal) ? this : this with { Number = number };
}
