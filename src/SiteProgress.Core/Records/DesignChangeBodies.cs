using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Records;

/// <summary>It was proposed what is to become of piles whose design was changed after they were built.</summary>
/// <param name="Piles">The piles, each with its change as it was shown.</param>
/// <param name="Answer">What is to become of them.</param>
/// <param name="Reason">Why, and by whose word.</param>
public sealed record DesignChangeProposedBody(IReadOnlyList<ChangedPile> Piles, DesignChangeAnswer Answer, string Reason) : TreatmentBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.DesignChangeProposed;
}

/// <summary>Such a proposal was decided.</summary>
/// <param name="Proposal">Sequence of the proposal.</param>
/// <param name="Approved">True when it holds from here on.</param>
/// <param name="Comment">What the person said.</param>
public sealed record DesignChangeDecidedBody(long Proposal, bool Approved, string Comment) : TreatmentBody
{
    /// <inheritdoc />
    public override RecordKind Kind => RecordKind.DesignChangeDecided;
}

/// <summary>A pile and how its design was changed after it was built.</summary>
/// <param name="Number">Pile number.</param>
/// <param name="Line">The change as it was shown; another change is another question.</param>
public sealed record ChangedPile(string Number, string Line);
