using NodaTime;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Forecast;

/// <summary>What a forecast starts from.</summary>
/// <param name="AsOf">Last working day of the history; the first forecast day is the next one.</param>
/// <param name="Barges">Barges with what they have done; one that is still to come has no days.</param>
/// <param name="Zones">What is left.</param>
/// <param name="Plan">Plan of work: barges that come and go, days without work.</param>
/// <param name="Rework">How often work had to be done again.</param>
/// <param name="Target">Day whose chance is asked for.</param>
public sealed record ForecastInput(
    LocalDate AsOf,
    IReadOnlyList<BargeHistory> Barges,
    IReadOnlyList<ZoneLeft> Zones,
    WorkPlan Plan,
    ReworkHistory Rework,
    LocalDate? Target = null);

/// <summary>What a barge has done.</summary>
/// <param name="Barge">Barge.</param>
/// <param name="Days">Every worked day from its first to the last of the history, those with nothing done too, in order.</param>
/// <param name="CurrentZone">Zone it worked in last; null when unknown.</param>
public sealed record BargeHistory(string Barge, IReadOnlyList<DayOutput> Days, string? CurrentZone);

/// <summary>Set-ups that a barge finished on one working day.</summary>
/// <param name="Day">Working day.</param>
/// <param name="SetUps">Set-ups finished.</param>
public readonly record struct DayOutput(LocalDate Day, int SetUps);

/// <summary>What is left in a zone.</summary>
/// <param name="Zone">Zone.</param>
/// <param name="SetUps">Set-ups left, without rework.</param>
/// <param name="Piles">Piles left.</param>
public sealed record ZoneLeft(string Zone, int SetUps, int Piles);

/// <summary>How often work had to be done again.</summary>
/// <param name="SetUps">Set-ups of the history.</param>
/// <param name="Again">Of them, those that only built again what an earlier attempt had left.</param>
public readonly record struct ReworkHistory(int SetUps, int Again);

/// <summary>How a forecast is made.</summary>
/// <param name="Runs">How many times the rest of the work is played through.</param>
/// <param name="Seed">Seed of the chance; the same seed gives the same forecast.</param>
/// <param name="BlockDays">Working days that are drawn together, so that bad weather stays together; null: as the length of the history asks for.</param>
/// <param name="RampDays">Working days at the beginning of a barge's time that count as its ramp-up and are not drawn from.</param>
/// <param name="LeastDaysOfMonth">Working days of a calendar month from which on days of that month are drawn for it alone.</param>
/// <param name="DoubtHistory">True: every run first draws which history it believes in, so that a short history gives a wide forecast.</param>
/// <param name="RateFactor">Factor on the output of all barges.</param>
/// <param name="ReworkFactor">Factor on the share of rework.</param>
/// <param name="LastDaysOnly">Use only so many last working days of the history; null for all.</param>
public sealed record ForecastOptions(
    int Runs = 10_000,
    ulong Seed = 20_260_302,
    int? BlockDays = null,
    int RampDays = 10,
    int LeastDaysOfMonth = 15,
    bool DoubtHistory = true,
    double RateFactor = 1,
    double ReworkFactor = 1,
    int? LastDaysOnly = null);
