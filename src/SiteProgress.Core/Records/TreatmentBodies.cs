using NodaTime;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Records;

/// <summary>A record of the treatment of piles: findings, lots, hold points, acceptance.</summary>
public abstract record TreatmentBody : RecordBody;

/// <summary>Findings were gathered into a non-conformance.</summary>
/// <param name="Number">Number of the non-conformance, counted on the site from 1.</param>
/// <param name="Findings">The findings, as they stood.</param>
/// <param name="Reason">Why they are gathered.</param>
/// <param name="DueOn">Day by which it is to be closed.</param>
public sealed record NonConformanceRaisedBody(
    int Number, IReadOnlyList<FindingShown> Findings, string Reason, LocalDate? DueOn) : TreatmentBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.NonConformanceRaised;
}

/// <summary>A disposition was proposed. The last proposal of a non-conformance is the one in force.</summary>
/// <param name="NonConformance">Its number.</param>
/// <param name="Disposition">What is to be done.</param>
/// <param name="Reason">Why.</param>
/// <param name="DesignerReference">The designer's reference; a concession needs one.</param>
/// <param name="Additional">Piles to be built in the stead of those with findings.</param>
/// <param name="Findings">The findings, as they stood.</param>
public sealed record DispositionProposedBody(
    int NonConformance,
    Disposition Disposition,
    string Reason,
    string? DesignerReference,
    IReadOnlyList<AdditionalPile>? Additional,
    IReadOnlyList<FindingShown> Findings) : TreatmentBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.DispositionProposed;
}

/// <summary>A proposal was decided.</summary>
/// <param name="NonConformance">Its number.</param>
/// <param name="Proposal">Sequence of the proposal.</param>
/// <param name="Approved">True when it was approved, false when it was sent back.</param>
/// <param name="Comment">What the person said.</param>
/// <param name="Findings">The findings, as they stood.</param>
/// <param name="Seen">SHA-256 of what was shown.</param>
/// <param name="Accepted">Piles that the concession accepts, with their sheets.</param>
public sealed record DispositionDecidedBody(
    int NonConformance,
    long Proposal,
    bool Approved,
    string Comment,
    IReadOnlyList<FindingShown> Findings,
    string Seen,
    IReadOnlyList<SignedPile>? Accepted) : TreatmentBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.DispositionDecided;
}

/// <summary>Somebody commented on a non-conformance.</summary>
/// <param name="NonConformance">Its number.</param>
/// <param name="Text">The comment.</param>
public sealed record CommentMadeBody(int NonConformance, string Text) : TreatmentBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.CommentMade;
}

/// <summary>A non-conformance got another due date.</summary>
/// <param name="NonConformance">Its number.</param>
/// <param name="DueOn">The day.</param>
/// <param name="Reason">Why.</param>
public sealed record DueDateSetBody(int NonConformance, LocalDate DueOn, string Reason) : TreatmentBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.DueDateSet;
}

/// <summary>Evidence was given that what was decided is done.</summary>
/// <param name="NonConformance">Its number.</param>
/// <param name="Reference">Where the evidence is: a document, a measurement, a record.</param>
/// <param name="Note">What it shows.</param>
public sealed record EvidenceGivenBody(int NonConformance, string Reference, string Note) : TreatmentBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.EvidenceGiven;
}

/// <summary>The closure of a non-conformance was verified, or not.</summary>
/// <param name="NonConformance">Its number.</param>
/// <param name="Verified">True when it is closed.</param>
/// <param name="Comment">What the person said.</param>
/// <param name="Findings">The findings, as they stood.</param>
/// <param name="Seen">SHA-256 of what was shown.</param>
public sealed record ClosureDecidedBody(
    int NonConformance, bool Verified, string Comment, IReadOnlyList<FindingShown> Findings, string Seen) : TreatmentBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.ClosureDecided;
}

/// <summary>Piles were submitted together.</summary>
/// <param name="Number">Number of the lot, counted on the site from 1.</param>
/// <param name="Piles">Pile numbers.</param>
/// <param name="Note">What the lot is.</param>
public sealed record LotSubmittedBody(int Number, IReadOnlyList<string> Piles, string Note) : TreatmentBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.LotSubmitted;
}

/// <summary>A lot was sent back.</summary>
/// <param name="Lot">Its number.</param>
/// <param name="Reason">Why.</param>
/// <param name="Seen">SHA-256 of what was shown.</param>
public sealed record LotReturnedBody(int Lot, string Reason, string Seen) : TreatmentBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.LotReturned;
}

/// <summary>Piles were accepted: one, those of a lot, or those of a selection.</summary>
/// <param name="Piles">The piles, each with the hash of its sheet.</param>
/// <param name="Lot">The lot they were accepted in.</param>
/// <param name="Selection">The filter they were selected by.</param>
/// <param name="Comment">What the person said.</param>
/// <param name="Seen">SHA-256 of the summary that was shown; of the one pile's sheet where there was none.</param>
public sealed record PilesAcceptedBody(
    IReadOnlyList<SignedPile> Piles, int? Lot, string? Selection, string Comment, string Seen) : TreatmentBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.PilesAccepted;
}

/// <summary>The acceptance of piles was withdrawn.</summary>
/// <param name="Piles">Pile numbers.</param>
/// <param name="Reason">Why.</param>
public sealed record AcceptanceWithdrawnBody(IReadOnlyList<string> Piles, string Reason) : TreatmentBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.AcceptanceWithdrawn;
}

/// <summary>A hold point was set: work waits until it is released.</summary>
/// <param name="Number">Number of the hold point, counted on the site from 1.</param>
/// <param name="PointKind">Its kind.</param>
/// <param name="Name">What it is called.</param>
/// <param name="Clause">Clause of the contract, or who asked for it.</param>
/// <param name="Shown">Piles that have to be shown before the release; they may be built.</param>
/// <param name="Waiting">Piles that wait; all other piles of the zone where there are none.</param>
/// <param name="Zone">Zone that waits.</param>
/// <param name="Barge">Barge that waits with its anchors.</param>
public sealed record HoldPointSetBody(
    int Number,
    HoldPointKind PointKind,
    string Name,
    string Clause,
    IReadOnlyList<string> Shown,
    IReadOnlyList<string> Waiting,
    string? Zone,
    string? Barge) : TreatmentBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.HoldPointSet;
}

/// <summary>A hold point was signed by one of those who have to.</summary>
/// <param name="HoldPoint">Its number.</param>
/// <param name="AsSurveyor">True for the surveyor's signature, false for that of the owner's representative.</param>
/// <param name="Note">What the person said.</param>
/// <param name="Seen">SHA-256 of what was shown.</param>
public sealed record HoldPointSignedBody(int HoldPoint, bool AsSurveyor, string Note, string Seen) : TreatmentBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.HoldPointSigned;
}

/// <summary>A hold point was withdrawn: nothing waits for it any more.</summary>
/// <param name="HoldPoint">Its number.</param>
/// <param name="Reason">Why.</param>
public sealed record HoldPointWithdrawnBody(int HoldPoint, string Reason) : TreatmentBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.HoldPointWithdrawn;
}

/// <summary>A record of treatment with who recorded it and when.</summary>
/// <param name="Sequence">Its place in the site's sequence.</param>
/// <param name="At">When.</param>
/// <param name="By">By whom.</param>
/// <param name="Body">What it says.</param>
public sealed record TreatmentRecord(long Sequence, Instant At, string By, TreatmentBody Body);
