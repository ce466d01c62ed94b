using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Progress;

namespace SiteProgress.Jobs.Progress;

/// <summary>How far the work is, and what it took.</summary>
/// <param name="SequenceOfRecords">Sequence of the last record all this follows from.</param>
/// <param name="TimeZone">IANA time zone of the site.</param>
/// <param name="Plan">Plan of work in force; empty where there is none.</param>
/// <param name="LastDay">Last working day with records; null before the first.</param>
/// <param name="From">First working day of the tables below, as asked for.</param>
/// <param name="To">Last working day of the tables below, as asked for.</param>
/// <param name="Zones">By zone, and last the whole site under an empty code.</param>
/// <param name="Days">By working day, of the whole work.</param>
/// <param name="Groups">Production of the period by barge, casing, zone and shift.</param>
/// <param name="Hours">Hours of the period by barge and kind.</param>
/// <param name="HoursByCause">Hours of the period by barge, activity, cause and bearer.</param>
/// <param name="DaysNotAddingUp">Days of the period whose hours do not add up to the working day.</param>
/// <param name="Cycles">Typical times by barge, of the period.</param>
/// <param name="Rework">Attempts and set-ups that had to be made again, of the period.</param>
public sealed record ProgressView(
    long SequenceOfRecords,
    string TimeZone,
    WorkPlan Plan,
    DateOnly? LastDay,
    DateOnly? From,
    DateOnly? To,
    IReadOnlyList<ZoneStanding> Zones,
    IReadOnlyList<DayTotal> Days,
    IReadOnlyList<GroupTotal> Groups,
    IReadOnlyList<BargeHours> Hours,
    IReadOnlyList<CauseHours> HoursByCause,
    IReadOnlyList<DayHours> DaysNotAddingUp,
    IReadOnlyList<CycleFigures> Cycles,
    ReworkTotal Rework);

/// <summary>Where a zone, or the site, stands.</summary>
/// <param name="Zone">Code; empty for the site.</param>
/// <param name="Name">Name.</param>
/// <param name="PlannedPiles">Piles of the design.</param>
/// <param name="BuiltPiles">Piles that stand.</param>
/// <param name="ByCountRatio">Share by count.</param>
/// <param name="ByMetresRatio">Share by design length.</param>
/// <param name="ByWeightRatio">Share by the weights of the plan of work; null where it sets none.</param>
/// <param name="DuePiles">Piles the plan wanted by the last working day with records; null where there is no plan.</param>
/// <param name="Planned">Planned curve; empty where there is no plan.</param>
/// <param name="Built">Built, cumulative, one point a working day with piles.</param>
/// <param name="Standing">Earned schedule by worked days; null where there is no plan.</param>
/// <param name="PlannedFinish">Last day of the planned curve.</param>
public sealed record ZoneStanding(
    string Zone,
    string Name,
    int PlannedPiles,
    int BuiltPiles,
    double? ByCountRatio,
    double? ByMetresRatio,
    double? ByWeightRatio,
    double? DuePiles,
    IReadOnlyList<CurveDay> Planned,
    IReadOnlyList<CurveDay> Built,
    EarnedSchedule? Standing,
    DateOnly? PlannedFinish);

/// <summary>A point of a curve.</summary>
/// <param name="Day">Working day.</param>
/// <param name="Piles">Piles by its end.</param>
public readonly record struct CurveDay(DateOnly Day, double Piles);

/// <summary>One working day.</summary>
/// <param name="Day">Working day.</param>
/// <param name="Barge">Barge.</param>
/// <param name="Piles">Piles completed.</param>
/// <param name="Metres">Metres that stand.</param>
/// <param name="SandInCasingCubicMetres">Sand used, loose volume in the casing.</param>
/// <param name="SandInPileCubicMetres">Sand that stands, volume in the pile.</param>
public sealed record DayTotal(DateOnly Day, string Barge, int Piles, double Metres, double SandInCasingCubicMetres, double SandInPileCubicMetres);

/// <summary>Production of a period under one heading.</summary>
/// <param name="By">What is told apart: barge, casing, zone or shift.</param>
/// <param name="Name">Which one.</param>
/// <param name="Days">Working days with an attempt.</param>
/// <param name="Attempts">Attempts.</param>
/// <param name="Piles">Piles completed.</param>
/// <param name="Metres">Metres that stand.</param>
/// <param name="SandInCasingCubicMetres">Sand used, loose volume in the casing.</param>
/// <param name="SandInPileCubicMetres">Sand that stands, volume in the pile.</param>
/// <param name="PilesWithFinding">Piles of which a check is not met.</param>
public sealed record GroupTotal(
    string By, string Name, int Days, int Attempts, int Piles, double Metres, double SandInCasingCubicMetres, double SandInPileCubicMetres, int PilesWithFinding);

/// <summary>Hours of a barge by kind.</summary>
/// <param name="Barge">Barge.</param>
/// <param name="Days">Working days with hours.</param>
/// <param name="ByKind">Hours by kind.</param>
/// <param name="WrittenHours">Hours written.</param>
public sealed record BargeHours(string Barge, int Days, IReadOnlyDictionary<TimeKind, decimal> ByKind, decimal WrittenHours)
{
    /// <summary>Share of the hours without rest in which piles were built; null where there are none.</summary>
    public double? UtilisationRatio
    {
        get
        {
            decimal meant = WrittenHours - ByKind.GetValueOrDefault(TimeKind.Rest);
            return meant > 0 ? (double)(ByKind.GetValueOrDefault(TimeKind.Installing) / meant) : null;
        }
    }
}

/// <summary>Hours by activity, cause and bearer.</summary>
/// <param name="Barge">Barge.</param>
/// <param name="Kind">Kind of time.</param>
/// <param name="Activity">Activity.</param>
/// <param name="Cause">Cause.</param>
/// <param name="BorneBy">Who bears it.</param>
/// <param name="Hours">Hours.</param>
public sealed record CauseHours(string Barge, TimeKind Kind, string Activity, string? Cause, string? BorneBy, decimal Hours);

/// <summary>Hours of a day against its length.</summary>
/// <param name="Day">Working day.</param>
/// <param name="Barge">Barge.</param>
/// <param name="WrittenHours">Hours written; zero where there are none.</param>
/// <param name="LengthHours">Length of the working day.</param>
public sealed record DayHours(DateOnly Day, string Barge, decimal WrittenHours, decimal LengthHours);

/// <summary>What had to be made again.</summary>
/// <param name="Attempts">Attempts of the period.</param>
/// <param name="NotCompleted">Of them, interrupted or abandoned.</param>
/// <param name="Again">Of them, at a pile that had been attempted before.</param>
public sealed record ReworkTotal(int Attempts, int NotCompleted, int Again);
