using NodaTime;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Treatment;

/// <summary>How far a lot is. The numbers are stable: they are kept in the store.</summary>
public enum LotStage
{
    /// <summary>Submitted; waits for a decision.</summary>
    Submitted = 1,

    /// <summary>Accepted, as far as its piles were ready.</summary>
    Accepted = 2,

    /// <summary>Sent back.</summary>
    Returned = 3,
}

/// <summary>Piles submitted together.</summary>
/// <param name="Number">Its number.</param>
/// <param name="Stage">How far it is.</param>
/// <param name="Piles">Its piles.</param>
/// <param name="Note">What the lot is.</param>
/// <param name="Submitted">Who submitted it, and when.</param>
/// <param name="Decision">The decision on it.</param>
/// <param name="AcceptedPiles">How many of its piles the decision accepted.</param>
public sealed record Lot(
    int Number, LotStage Stage, IReadOnlyList<string> Piles, string Note, TreatmentStep Submitted, TreatmentStep? Decision, int AcceptedPiles);

/// <summary>A point at which work waits.</summary>
/// <param name="Number">Its number.</param>
/// <param name="PointKind">Its kind.</param>
/// <param name="Name">What it is called.</param>
/// <param name="Clause">Clause of the contract, or who asked for it.</param>
/// <param name="Shown">Piles that have to be shown; they may be built.</param>
/// <param name="Waiting">Piles named to wait.</param>
/// <param name="Zone">Zone that waits.</param>
/// <param name="Barge">Barge that waits with its anchors.</param>
/// <param name="ReleasedAt">When it was released; null while it waits.</param>
/// <param name="Withdrawn">True when it was withdrawn.</param>
/// <param name="PilesWaiting">How many piles wait for it now.</param>
/// <param name="Steps">What happened to it, in order; its setting first.</param>
public sealed record HoldPoint(
    int Number,
    HoldPointKind PointKind,
    string Name,
    string Clause,
    IReadOnlyList<string> Shown,
    IReadOnlyList<string> Waiting,
    string? Zone,
    string? Barge,
    Instant? ReleasedAt,
    bool Withdrawn,
    int PilesWaiting,
    IReadOnlyList<TreatmentStep> Steps)
{
    /// <summary>True while work waits for it.</summary>
    public bool IsOpen() => ReleasedAt is null && !Withdrawn;

    /// <summary>True when a surveyor has to sign as well.</summary>
    public bool NeedsSurveyor() => PointKind == HoldPointKind.BeforeAnchorsLift;
}
