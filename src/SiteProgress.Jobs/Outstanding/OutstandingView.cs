using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;

namespace SiteProgress.Jobs.Outstanding;

/// <summary>Why an outstanding pile is listed apart.</summary>
public enum OutstandingKind
{
    /// <summary>Nothing was recorded for it.</summary>
    NotAttempted = 1,

    /// <summary>Left out inside a finished block.</summary>
    Gap = 2,

    /// <summary>Attempted, and nothing stands.</summary>
    Attempted = 3,

    /// <summary>A record that may be its own waits for a person.</summary>
    AwaitingDecision = 4,

    /// <summary>Part of a row that was left unfinished while the work went past it on both sides.</summary>
    UnfinishedRow = 5,
}

/// <summary>What is left to build.</summary>
/// <param name="SequenceOfRecords">Sequence of the last record all this follows from.</param>
/// <param name="TimeZone">IANA time zone of the site.</param>
/// <param name="Zones">What is left by zone.</param>
/// <param name="Gaps">Piles left out inside finished blocks.</param>
/// <param name="Attempted">Piles attempted for which nothing stands.</param>
/// <param name="Awaiting">Records that wait for a person and the piles they may be.</param>
/// <param name="Total">Rows the list holds in all.</param>
/// <param name="Rows">A page of the list.</param>
public sealed record OutstandingView(
    long SequenceOfRecords,
    string TimeZone,
    IReadOnlyList<ZoneLeft> Zones,
    IReadOnlyList<OutstandingPile> Gaps,
    IReadOnlyList<OutstandingPile> Attempted,
    IReadOnlyList<WaitingRecord> Awaiting,
    int Total,
    IReadOnlyList<OutstandingPile> Rows);

/// <summary>What is left in a zone.</summary>
/// <param name="Zone">Code.</param>
/// <param name="Name">Name.</param>
/// <param name="PlannedPiles">Piles of the design, cancelled ones left out.</param>
/// <param name="LeftPiles">Of them, those for which nothing stands.</param>
/// <param name="LeftMetres">Their design length; the least length where the design sets no tip level.</param>
/// <param name="LeftByLeastLength">For how many the least length stands in.</param>
/// <param name="Gaps">Left out inside finished blocks.</param>
/// <param name="Attempted">Attempted, and nothing stands.</param>
/// <param name="AwaitingDecision">A record that may be theirs waits for a person.</param>
/// <param name="UnfinishedRows">In rows left unfinished.</param>
public sealed record ZoneLeft(
    string Zone,
    string Name,
    int PlannedPiles,
    int LeftPiles,
    double LeftMetres,
    int LeftByLeastLength,
    int Gaps,
    int Attempted,
    int AwaitingDecision,
    int UnfinishedRows);

/// <summary>One outstanding pile.</summary>
/// <param name="Number">Pile number.</param>
/// <param name="Zone">Zone.</param>
/// <param name="State">Outstanding, or to be built again.</param>
/// <param name="Kind">Why it is listed apart, if it is.</param>
/// <param name="XMetres">Design position, first site axis.</param>
/// <param name="YMetres">Design position, second site axis.</param>
/// <param name="TopLevelMetres">Design top level.</param>
/// <param name="TipLevelMetres">Design tip level; null where the stop criterion decides.</param>
/// <param name="DesignLengthMetres">Design length, or the least length where there is no tip level.</param>
/// <param name="IsLeastLength">True when it is the least length.</param>
/// <param name="Attempts">Attempts adopted for it.</param>
/// <param name="Neighbours">Design neighbours; null unless it is a gap.</param>
/// <param name="BuiltNeighbours">How many of them are built; null unless it is a gap.</param>
/// <param name="Remark">The designer's remark.</param>
public sealed record OutstandingPile(
    string Number,
    string Zone,
    PileState State,
    OutstandingKind Kind,
    double XMetres,
    double YMetres,
    double TopLevelMetres,
    double? TipLevelMetres,
    double? DesignLengthMetres,
    bool IsLeastLength,
    int Attempts,
    int? Neighbours,
    int? BuiltNeighbours,
    string? Remark)
{
    /// <summary>Number of the hold point it waits for; null where it may be built.</summary>
    public int? HeldBy { get; init; }
}

/// <summary>A record that waits for a person.</summary>
/// <param name="Sequence">Sequence of the record.</param>
/// <param name="RecordId">The sender's identifier.</param>
/// <param name="Reason">Why number and position did not settle it.</param>
/// <param name="RecordedNumber">Pile number as recorded.</param>
/// <param name="RecordedNumberIsPlanned">True when the design has that number.</param>
/// <param name="Nearest">Nearest planned pile within reach.</param>
/// <param name="DistanceToNamedMetres">Distance to the pile its number names.</param>
/// <param name="DistanceToNearestMetres">Distance to the nearest planned pile within reach.</param>
/// <param name="Barge">Barge.</param>
/// <param name="Casing">Casing.</param>
/// <param name="WorkingDay">Working day of its end.</param>
public sealed record WaitingRecord(
    long Sequence,
    string? RecordId,
    MatchOutcome Reason,
    string RecordedNumber,
    bool RecordedNumberIsPlanned,
    string? Nearest,
    double? DistanceToNamedMetres,
    double? DistanceToNearestMetres,
    string Barge,
    int? Casing,
    DateOnly? WorkingDay);
