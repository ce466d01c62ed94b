namespace SiteProgress.Core.Records;

/// <summary>
/// A revision of recorded positions was proposed: so much is to be taken off, in the axes of the barge at each record. Nothing follows
/// from it until another person decides.
/// </summary>
/// <param name="Barge">Barge.</param>
/// <param name="Casing">Casing; null for all of them.</param>
/// <param name="ForwardMetres">Recorded minus true, forward, metres.</param>
/// <param name="StarboardMetres">Recorded minus true, to starboard, metres.</param>
/// <param name="Installations">Sequences of the installations it revises.</param>
/// <param name="CheckMeasurements">Sequences of the check measurements it rests on.</param>
/// <param name="Reason">Why.</param>
public sealed record CorrectionProposedBody(
    string Barge,
    int? Casing,
    double ForwardMetres,
    double StarboardMetres,
    IReadOnlyList<long> Installations,
    IReadOnlyList<long> CheckMeasurements,
    string Reason) : RecordBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.CorrectionProposed;
}

/// <summary>A proposed correction was decided on.</summary>
/// <param name="Correction">Sequence of the proposal.</param>
/// <param name="Adopted">True when positions are to be taken as corrected.</param>
/// <param name="Reason">Why.</param>
public sealed record CorrectionDecidedBody(long Correction, bool Adopted, string Reason) : RecordBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.CorrectionDecided;
}

/// <summary>A correction was withdrawn; positions count as recorded again.</summary>
/// <param name="Correction">Sequence of the proposal.</param>
/// <param name="Reason">Why.</param>
public sealed record CorrectionWithdrawnBody(long Correction, string Reason) : RecordBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.CorrectionWithdrawn;
}
