namespace SiteProgress.Core.Matching;

/// <summary>How an installation stands to the design.</summary>
public enum MatchOutcome
{
    /// <summary>Number and position agree; adopted.</summary>
    Matched = 1,

    /// <summary>Built off its place by instruction, near the pile its number names; adopted.</summary>
    OffsetByInstruction = 2,

    /// <summary>A trial pile, outside the design.</summary>
    Trial = 3,

    /// <summary>The number names one pile, the position lies at another.</summary>
    NumberContradictsPosition = 4,

    /// <summary>The number is not in the design; the position lies at a planned pile.</summary>
    UnknownNumber = 5,

    /// <summary>Nothing is planned within reach of the position.</summary>
    NothingPlannedWithinReach = 6,

    /// <summary>The record holds no position.</summary>
    NoPosition = 7,

    /// <summary>The same record was there already.</summary>
    DuplicateRecord = 8,

    /// <summary>The sender's record identifier was there already, with other content.</summary>
    IdentifierReused = 9,

    /// <summary>Two records lie each at the pile the other one names.</summary>
    SwappedNumbers = 10,

    /// <summary>Records of one barge lie each at the pile the next one names: the numbers are shifted along the row.</summary>
    ShiftedAlongRow = 11,

    /// <summary>A whole batch lies off the piles it names by one and the same vector.</summary>
    BatchShifted = 12,

    /// <summary>The position lies at the pile its number names once its two coordinates are exchanged.</summary>
    AxesExchanged = 13,

    /// <summary>The position lies at the pile its number names once it is read in another frame than it was said to be in.</summary>
    WrongFrame = 14,

    /// <summary>The position lies at a pile that another record holds; the number names another pile or none.</summary>
    ClaimedTwice = 15,
}

/// <summary>Which planned pile an installation is, or why that is not settled.</summary>
/// <param name="Outcome">How it stands to the design.</param>
/// <param name="Adopted">Number of the planned pile it is taken for; null while a person has to decide.</param>
/// <param name="Nearest">Number of the planned pile it lies at: the one the assignment gives it, else the nearest within reach.</param>
/// <param name="DistanceToNamedMetres">Distance to the pile its number names, metres.</param>
/// <param name="DistanceToNearestMetres">Distance to that pile, metres.</param>
/// <param name="SameAs">Sequence of the earlier record it repeats.</param>
public sealed record InstallationMatch(
    MatchOutcome Outcome,
    string? Adopted,
    string? Nearest,
    double? DistanceToNamedMetres,
    double? DistanceToNearestMetres,
    long? SameAs)
{
    /// <summary>Sequence of the person's decision that holds; null where none does.</summary>
    public long? Decision { get; init; }

    /// <summary>True while a person has to decide.</summary>
    public bool WaitsForDecision => Adopted is null && Decision is null && NeedsDecision(Outcome);

    /// <summary>True for an outcome that leaves it to a person which pile the installation is.</summary>
    public static bool NeedsDecision(MatchOutcome outcome)
        => outcome is not (MatchOutcome.Matched or MatchOutcome.OffsetByInstruction or MatchOutcome.Trial or MatchOutcome.DuplicateRecord);
}
