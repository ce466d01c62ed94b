using NodaTime;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Records;

/// <summary>A person decided which piles installations are.</summary>
/// <param name="Choices">One for each installation.</param>
/// <param name="Reason">Why.</param>
public sealed record MatchesDecidedBody(IReadOnlyList<MatchChoice> Choices, string Reason) : RecordBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.MatchesDecided;
}

/// <summary>A decision on matches was withdrawn: what it decided waits again.</summary>
/// <param name="Decision">Sequence of the decision.</param>
/// <param name="Reason">Why.</param>
public sealed record MatchDecisionWithdrawnBody(long Decision, string Reason) : RecordBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.MatchDecisionWithdrawn;
}

/// <summary>Which pile an installation is by a person's decision.</summary>
/// <param name="Installation">Sequence of the installation.</param>
/// <param name="Pile">Number of the planned pile; null where it is set aside and stands for none.</param>
/// <param name="Reading">How its coordinates are read; null: as they say.</param>
public sealed record MatchChoice(long Installation, string? Pile, PositionReading? Reading = null);

/// <summary>A decision on matches, and what became of it.</summary>
/// <param name="Sequence">Sequence of the decision.</param>
/// <param name="At">When.</param>
/// <param name="By">By whom.</param>
/// <param name="Body">What was decided, and why.</param>
/// <param name="Withdrawal">How it was withdrawn; null while it stands.</param>
public sealed record MatchDecision(long Sequence, Instant At, string By, MatchesDecidedBody Body, Withdrawal? Withdrawal);
