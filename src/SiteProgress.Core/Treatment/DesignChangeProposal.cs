using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Core.Treatment;

/// <summary>A proposal for piles whose design was changed after they were built, and what became of it.</summary>
/// <param name="Record">The proposal.</param>
/// <param name="Body">What it says.</param>
/// <param name="Decision">The record that decided it; null while nothing is decided.</param>
public sealed record DesignChangeProposal(TreatmentRecord Record, DesignChangeProposedBody Body, TreatmentRecord? Decision)
{
    /// <summary>True once it was approved.</summary>
    public bool IsApproved => Decision?.Body is DesignChangeDecidedBody { Approved: true };
}

/// <summary>What was decided about one pile's changed design.</summary>
/// <param name="Answer">What is to become of it.</param>
/// <param name="Line">The change it was decided for.</param>
/// <param name="Sequence">The record that decided it.</param>
internal sealed record DecidedDesignChange(DesignChangeAnswer Answer, string Line, long Sequence);
