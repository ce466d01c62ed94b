using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Core.Treatment;

/// <summary>How far a non-conformance is. The numbers are stable: they are kept in the store.</summary>
public enum Stage
{
    /// <summary>Raised; waits for a proposal.</summary>
    Raised = 1,

    /// <summary>A disposition is proposed; waits for a decision.</summary>
    Proposed = 2,

    /// <summary>The proposal was sent back; waits for another.</summary>
    Returned = 3,

    /// <summary>Approved; waits for the work.</summary>
    Approved = 4,

    /// <summary>The work is said to be done, or no finding stands any more; waits for verification.</summary>
    ToVerify = 5,

    /// <summary>A later record changed a finding that was decided on; waits for a proposal.</summary>
    Reopened = 6,

    /// <summary>Closed.</summary>
    Closed = 7,
}

/// <summary>Findings under treatment, as all records together leave them.</summary>
/// <param name="Number">Its number.</param>
/// <param name="Stage">How far it is.</param>
/// <param name="Reason">Why it was raised.</param>
/// <param name="Findings">Its findings, when raised and now.</param>
/// <param name="DueOn">Day by which it is to be closed.</param>
/// <param name="Proposal">The proposal in force.</param>
/// <param name="Decision">The decision on it.</param>
/// <param name="Reopened">What changed after it was decided or closed; null when nothing did.</param>
/// <param name="FindingsGone">True when no finding of it stands any more.</param>
/// <param name="Replacements">Additional piles, and whether each is accepted.</param>
/// <param name="Steps">What happened to it, in order.</param>
public sealed record NonConformance(
    int Number,
    Stage Stage,
    string Reason,
    IReadOnlyList<FindingNow> Findings,
    LocalDate? DueOn,
    ProposedDisposition? Proposal,
    TreatmentStep? Decision,
    string? Reopened,
    bool FindingsGone,
    IReadOnlyList<ReplacementPile> Replacements,
    IReadOnlyList<TreatmentStep> Steps)
{
    /// <summary>Piles it speaks of, each once.</summary>
    public IReadOnlyList<string> Piles() => [.. Findings.Where(finding => finding.Account is null).Select(finding => finding.Pile).Distinct(StringComparer.Ordinal)];

    /// <summary>Sand accounts it speaks of.</summary>
    public IReadOnlyList<SandAccountName> Accounts() => [.. Findings.Select(finding => finding.Account).OfType<SandAccountName>()];

    /// <summary>True until it is closed.</summary>
    public bool IsOpen() => Stage != Stage.Closed;
}

/// <summary>A finding of a non-conformance.</summary>
/// <param name="Pile">Pile number; empty where the finding is one of a sand account.</param>
/// <param name="Check">The check.</param>
/// <param name="WhenRaised">How it stood when it was raised.</param>
/// <param name="Now">How it stands now.</param>
/// <param name="Stands">True when the check is still not met.</param>
/// <param name="Account">The sand account; null where the finding is one of a pile.</param>
public sealed record FindingNow(string Pile, CheckName Check, string WhenRaised, string Now, bool Stands, SandAccountName? Account = null);

/// <summary>A proposal in force.</summary>
/// <param name="Sequence">Its record.</param>
/// <param name="By">Who proposed.</param>
/// <param name="Disposition">What is to be done.</param>
/// <param name="Reason">Why.</param>
/// <param name="DesignerReference">The designer's reference.</param>
/// <param name="Additional">Piles to be built in the stead of others.</param>
public sealed record ProposedDisposition(
    long Sequence, string By, Disposition Disposition, string Reason, string? DesignerReference, IReadOnlyList<AdditionalPile> Additional);

/// <summary>A pile built in the stead of another.</summary>
/// <param name="Number">Its number.</param>
/// <param name="Replaces">The pile it replaces.</param>
/// <param name="Accepted">True when it is accepted.</param>
public sealed record ReplacementPile(string Number, string Replaces, bool Accepted);

/// <summary>Something that happened in a treatment.</summary>
/// <param name="Sequence">Its record.</param>
/// <param name="At">When.</param>
/// <param name="By">By whom.</param>
/// <param name="Kind">What kind of record.</param>
/// <param name="Yes">True for an approval, a verification, a surveyor's signature; null where there is no such question.</param>
/// <param name="Text">What the person said.</param>
/// <param name="Reference">A reference that was given.</param>
public sealed record TreatmentStep(long Sequence, Instant At, string By, RecordKind Kind, bool? Yes, string Text, string? Reference);
