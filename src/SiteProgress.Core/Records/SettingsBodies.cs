using NodaTime;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Records;

/// <summary>Settings proposed that touch the contract; they wait for the owner's representative.</summary>
/// <param name="Settings">The settings as they would be, whole.</param>
/// <param name="Reason">Why.</param>
/// <param name="Instead">Sequence of the record whose settings they would replace.</param>
public sealed record SettingsProposedBody(SiteSettings Settings, string Reason, long Instead) : RecordBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.SettingsProposed;
}

/// <summary>Proposed settings were approved and are in force, or were refused.</summary>
/// <param name="Proposal">Sequence of the proposal.</param>
/// <param name="Approved">True when they are in force from here on.</param>
/// <param name="Comment">What was said to it.</param>
/// <param name="Seen">SHA-256 of the proposed settings as shown, lower-case hexadecimal.</param>
public sealed record SettingsDecidedBody(long Proposal, bool Approved, string Comment, string Seen) : RecordBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.SettingsDecided;
}

/// <summary>Proposed settings, and what became of them.</summary>
/// <param name="Sequence">Sequence of the proposal.</param>
/// <param name="At">When.</param>
/// <param name="By">By whom.</param>
/// <param name="Body">What was proposed, and why.</param>
/// <param name="Decision">What was decided; null while nothing is.</param>
/// <param name="Overtaken">Sequence of the record that revised the settings meanwhile, so that there is nothing left to decide; null where none did.</param>
public sealed record SettingsProposal(
    long Sequence, Instant At, string By, SettingsProposedBody Body, Kept<SettingsDecidedBody>? Decision, long? Overtaken)
{
    /// <summary>True while it waits for the owner's representative.</summary>
    public bool Waits => Decision is null && Overtaken is null;
}
