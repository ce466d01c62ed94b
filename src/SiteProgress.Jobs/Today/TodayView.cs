using SiteProgress.Core.Checks;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;

namespace SiteProgress.Jobs.Today;

/// <summary>What the manager's page says, from the records that are in.</summary>
/// <param name="SequenceOfRecords">Sequence of the last record all this follows from.</param>
/// <param name="CurrentDay">The working day by the clock.</param>
/// <param name="Day">The working day shown.</param>
/// <param name="Previous">The last working day with records before it.</param>
/// <param name="Next">The first working day with records after it.</param>
/// <param name="LatestWithRecords">The last working day with records.</param>
/// <param name="Days">The working day with records before the day shown, then the day shown.</param>
/// <param name="States">How many piles are in each state; states without piles are left out.</param>
/// <param name="Zones">What is built and left in each zone.</param>
/// <param name="Waiting">Records that wait for a person, by reason.</param>
/// <param name="Checks">When each barge was last checked by an independent measurement.</param>
/// <param name="Rate">The mean of the last working days; null before there is one.</param>
/// <param name="LastEndedAt">When the casing last left a pile (UTC).</param>
/// <param name="LastBroughtInAt">When records were last brought in (UTC).</param>
/// <param name="TimeZone">IANA time zone of the site.</param>
public sealed record TodayView(
    long SequenceOfRecords,
    DateOnly CurrentDay,
    DateOnly Day,
    DateOnly? Previous,
    DateOnly? Next,
    DateOnly? LatestWithRecords,
    IReadOnlyList<DayReport> Days,
    IReadOnlyList<StateCount> States,
    IReadOnlyList<ZoneProgress> Zones,
    IReadOnlyList<WaitingCount> Waiting,
    IReadOnlyList<BargeCheck> Checks,
    PlainRate? Rate,
    DateTime? LastEndedAt,
    DateTime? LastBroughtInAt,
    string TimeZone)
{
    /// <summary>How many days the latest working day with records lies before the current one; null when there is none.</summary>
    public int? DaysOld => LatestWithRecords is { } latest ? CurrentDay.DayNumber - latest.DayNumber : null;
}

/// <summary>One working day.</summary>
/// <param name="Day">The working day.</param>
/// <param name="Production">What was built, by barge and zone.</param>
/// <param name="NotCompleted">Attempts that were interrupted or abandoned.</param>
/// <param name="Findings">Checks not met by piles completed on the day, with their counts.</param>
/// <param name="PilesWithFinding">Those piles, the largest deviation first.</param>
/// <param name="Worst">The judged pile of the day with the largest radial deviation.</param>
public sealed record DayReport(
    DateOnly Day,
    IReadOnlyList<BargeZoneProduction> Production,
    IReadOnlyList<AttemptNotCompleted> NotCompleted,
    IReadOnlyList<CheckCount> Findings,
    IReadOnlyList<PileOfDay> PilesWithFinding,
    PileOfDay? Worst)
{
    /// <summary>The day added up.</summary>
    public BargeZoneProduction Total => new(
        "",
        "",
        Production.Sum(one => one.Attempts),
        Production.Sum(one => one.Piles),
        Production.Sum(one => one.Metres),
        Production.Sum(one => one.SandInCasingCubicMetres),
        Production.Sum(one => one.SandInPileCubicMetres),
        Production.Sum(one => one.AttemptsNotCompleted),
        Production.Sum(one => one.PilesWithFinding));
}

/// <summary>What one barge did in one zone on one working day.</summary>
/// <param name="Barge">Barge.</param>
/// <param name="Zone">Zone; empty where no planned pile is adopted.</param>
/// <param name="Attempts">Attempts that ended.</param>
/// <param name="Piles">Piles completed.</param>
/// <param name="Metres">Metres of pile that stand.</param>
/// <param name="SandInCasingCubicMetres">Sand used, loose volume in the casing, all attempts.</param>
/// <param name="SandInPileCubicMetres">Sand that stands, volume in the pile.</param>
/// <param name="AttemptsNotCompleted">Attempts that were interrupted or abandoned.</param>
/// <param name="PilesWithFinding">Completed piles of which a check is not met.</param>
public sealed record BargeZoneProduction(
    string Barge,
    string Zone,
    int Attempts,
    int Piles,
    double Metres,
    double SandInCasingCubicMetres,
    double SandInPileCubicMetres,
    int AttemptsNotCompleted,
    int PilesWithFinding);

/// <summary>An attempt that was interrupted or abandoned.</summary>
/// <param name="Number">Pile it is taken for, or the number as recorded.</param>
/// <param name="IsPlanned">True when that is a planned pile, which has a record to open.</param>
/// <param name="Barge">Barge.</param>
/// <param name="Outcome">How it ended.</param>
/// <param name="State">Where the pile stands now; null when the number is of no planned pile.</param>
/// <param name="Remark">The crew's remark.</param>
public sealed record AttemptNotCompleted(string Number, bool IsPlanned, string Barge, Outcome Outcome, PileState? State, string? Remark);

/// <summary>How many piles do not meet a check.</summary>
/// <param name="Check">The check.</param>
/// <param name="Piles">How many piles.</param>
public sealed record CheckCount(CheckName Check, int Piles);

/// <summary>A pile of the day.</summary>
/// <param name="Number">Pile number.</param>
/// <param name="Barge">Barge.</param>
/// <param name="Checks">Checks not met.</param>
/// <param name="RadialMetres">Radial deviation, or along an axis where that limit decides; null where no position is judged.</param>
/// <param name="LimitMetres">The limit that decides.</param>
public sealed record PileOfDay(string Number, string Barge, IReadOnlyList<CheckName> Checks, double? RadialMetres, double LimitMetres);

/// <summary>How many piles are in a state.</summary>
/// <param name="State">The state.</param>
/// <param name="Piles">How many piles.</param>
public sealed record StateCount(PileState State, int Piles);

/// <summary>What is built and left in a zone; cancelled piles do not count.</summary>
/// <param name="Zone">Code.</param>
/// <param name="Name">Name.</param>
/// <param name="PlannedPiles">Piles of the design.</param>
/// <param name="BuiltPiles">Of them, those for which an installation stands.</param>
/// <param name="PlannedMetres">Design length of all; the least length where the design sets no tip level.</param>
/// <param name="BuiltDesignMetres">Design length of the built ones, counted alike.</param>
/// <param name="AsBuiltMetres">As-built length of the built ones.</param>
/// <param name="PilesByLeastLength">For how many piles the least length stands in for the design length.</param>
public sealed record ZoneProgress(
    string Zone,
    string Name,
    int PlannedPiles,
    int BuiltPiles,
    double PlannedMetres,
    double BuiltDesignMetres,
    double AsBuiltMetres,
    int PilesByLeastLength)
{
    /// <summary>Piles left.</summary>
    public int LeftPiles => PlannedPiles - BuiltPiles;

    /// <summary>Share of the piles that is built, 0 to 1; null where none is planned.</summary>
    public double? ByCountRatio => PlannedPiles > 0 ? (double)BuiltPiles / PlannedPiles : null;

    /// <summary>Share of the design length that is built, 0 to 1; null where none is planned.</summary>
    public double? ByMetresRatio => PlannedMetres > 0 ? BuiltDesignMetres / PlannedMetres : null;
}

/// <summary>Records that wait for a person, for one reason.</summary>
/// <param name="Reason">Why number and position did not settle it.</param>
/// <param name="Records">How many.</param>
public sealed record WaitingCount(MatchOutcome Reason, int Records);

/// <summary>When a barge was last checked by an independent measurement.</summary>
/// <param name="Barge">Barge.</param>
/// <param name="LastDay">Working day of the last check measurement; null when there is none.</param>
/// <param name="OnLastDay">Measurements on that day.</param>
/// <param name="MeanEastMetres">Mean of recorded minus measured on that day, along CRS grid east.</param>
/// <param name="MeanNorthMetres">Mean of recorded minus measured on that day, along CRS grid north.</param>
/// <param name="InstallationsSince">Installations recorded after the last measurement; all when there is none.</param>
/// <param name="LastInstallationDay">Working day of the barge's last installation.</param>
public sealed record BargeCheck(
    string Barge,
    DateOnly? LastDay,
    int OnLastDay,
    double? MeanEastMetres,
    double? MeanNorthMetres,
    int InstallationsSince,
    DateOnly? LastInstallationDay)
{
    /// <summary>Days from the last check to the barge's last installation; null where one of them is missing.</summary>
    public int? DaysWithoutCheck => LastDay is { } check && LastInstallationDay is { } last ? Math.Max(0, last.DayNumber - check.DayNumber) : null;
}

/// <summary>The mean of the last working days with records. No allowance for weather: arithmetic, not a forecast.</summary>
/// <param name="Days">Working days averaged.</param>
/// <param name="FirstDay">First of them.</param>
/// <param name="LastDay">Last of them.</param>
/// <param name="PilesPerDay">Piles completed per such day.</param>
/// <param name="LeftPiles">Piles left on the site.</param>
/// <param name="DaysNeeded">Such days the rest would take.</param>
/// <param name="AtThatRate">The day, when days without records come as often as in those days.</param>
public sealed record PlainRate(
    int Days, DateOnly FirstDay, DateOnly LastDay, decimal PilesPerDay, int LeftPiles, int? DaysNeeded, DateOnly? AtThatRate);
