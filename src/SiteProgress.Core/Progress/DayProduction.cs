using NodaTime;

namespace SiteProgress.Core.Progress;

/// <summary>
/// What one barge built with one casing in one zone on one working day and shift. A pile counts on the day on which the
/// casing left the installation that completed it; an attempt counts on its own day.
/// </summary>
/// <param name="Day">Working day.</param>
/// <param name="Shift">Shift.</param>
/// <param name="Barge">Barge.</param>
/// <param name="Casing">Casing; 0 where the record does not say.</param>
/// <param name="Zone">Zone of the planned pile; empty where no pile is adopted.</param>
/// <param name="Attempts">Attempts that ended, repeats of a record not counted.</param>
/// <param name="Piles">Planned piles completed.</param>
/// <param name="Metres">Metres of pile that stand.</param>
/// <param name="SandInCasing">Sand used, loose volume in the casing, cubic metres, all attempts.</param>
/// <param name="SandInPile">Sand that stands in piles, volume in pile, cubic metres.</param>
/// <param name="PilesWithFinding">Completed piles of which a check is not met.</param>
public sealed record DayProduction(
    LocalDate Day,
    string Shift,
    string Barge,
    int Casing,
    string Zone,
    int Attempts,
    int Piles,
    double Metres,
    double SandInCasing,
    double SandInPile,
    int PilesWithFinding);
