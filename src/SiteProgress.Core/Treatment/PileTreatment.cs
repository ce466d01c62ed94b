using NodaTime;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Treatment;

/// <summary>Where a pile stands after all that was decided about it.</summary>
/// <param name="State">Its state.</param>
/// <param name="NonConformance">The non-conformance it is in: the open one, else the last.</param>
/// <param name="Lot">The lot that waits with it, or in which it was accepted.</param>
/// <param name="HeldBy">The hold point it waits for.</param>
/// <param name="BuiltWhileHeld">The hold point that waited when it was built.</param>
/// <param name="Acceptance">Its acceptance in force.</param>
/// <param name="Reopened">Why an acceptance no longer holds; null when none was given or it holds.</param>
/// <param name="Replaces">The pile it replaces.</param>
/// <param name="ReplacedBy">The pile that replaces it.</param>
public sealed record PileTreatment(
    PileState State,
    int? NonConformance,
    int? Lot,
    int? HeldBy,
    int? BuiltWhileHeld,
    PileAcceptance? Acceptance,
    string? Reopened,
    string? Replaces,
    string? ReplacedBy)
{
    // Most piles of a large site are untouched, and all of one state are so alike.
    private static readonly Dictionary<PileState, PileTreatment> ByState = Enum.GetValues<PileState>()
        .ToDictionary(state => state, state => new PileTreatment(state, null, null, null, null, null, null, null, null));

    /// <summary>A pile that nothing was decided about.</summary>
    public static PileTreatment Untouched(PileState state) => ByState.TryGetValue(state, out PileTreatment? known) ? known : new(state, null, null, null, null, null, null, null, null);
}

/// <summary>A pile was accepted.</summary>
/// <param name="Sequence">The record that accepted it.</param>
/// <param name="At">When.</param>
/// <param name="By">By whom.</param>
/// <param name="Sheet">SHA-256 of its sheet as it was shown.</param>
/// <param name="Lot">The lot it was accepted in.</param>
/// <param name="Comment">What the person said.</param>
public sealed record PileAcceptance(long Sequence, Instant At, string By, string Sheet, int? Lot, string Comment);

/// <summary>Whether a pile can be accepted.</summary>
public enum Readiness
{
    /// <summary>It can, also together with others.</summary>
    Ready = 1,

    /// <summary>Only by itself and with a comment.</summary>
    OneByOne = 2,

    /// <summary>Not as it stands.</summary>
    NotReady = 3,

    /// <summary>It is accepted already.</summary>
    Accepted = 4,
}

/// <summary>Whether a pile can be accepted, and why not.</summary>
/// <param name="Readiness">Whether.</param>
/// <param name="Reason">Why not, or why only by itself; empty where it can.</param>
public sealed record PileReadiness(Readiness Readiness, string Reason);
