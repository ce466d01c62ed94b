using NodaTime;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Design;
using SiteProgress.Core.Deviations;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Treatment;

namespace SiteProgress.Core.Derivation;

/// <summary>
/// Judges a pile by the design in force when it was built: when the casing left what completed it. What changed in its design since
/// is told beside it and waits for a decision. A pile that was taken out is judged where something stands for it, else it is gone.
/// </summary>
/// <param name="contracts">What the piles of each zone are judged by.</param>
/// <param name="rotation">Turn from the site grid to the projected CRS grid.</param>
/// <param name="log">What was decided.</param>
internal sealed class BuiltByDesign(IReadOnlyDictionary<string, JudgingContract> contracts, GridRotation rotation, TreatmentLog log)
{
    private readonly Dictionary<int, PileDesign> _unchanged = [];

    /// <summary>The pile as judged, and how its design stands; null where it is gone, or no zone of the settings takes it.</summary>
    public (PileJudgement Judgement, PileDesign Design)? Judge(PileThroughRevisions pile, LocatedInstallation[] attempts)
    {
        PileVersion version = pile.Last;
        PileDesign? design = null;
        if (attempts.Length > 0 && (pile.Versions.Count > 1 || pile.TakenOutBy is not null))
        {
            IReadOnlyList<StandingPart> standing = StandingInstallations.Of(attempts);
            if (standing.Count > 0)
            {
                PileVersion then = standing[^1].Installation.BuiltAt is { } built ? pile.At(built) : pile.Last;
                design = DesignOf(pile, then);
                version = design.Answer == DesignChangeAnswer.HoldAgainstNewDesign ? pile.Last : then;
            }
        }

        if (design is null && pile.TakenOutBy is not null) return null;
        if (!contracts.TryGetValue(version.Pile.Zone, out JudgingContract? contract)) return null;
        PileJudgement judged = PileJudge.Judge(version.Pile.Under(pile.Number), attempts, contract);
        design ??= Unchanged(version.Revision);
        return (design.IsOpen ? judged with { OpenDesignChange = design.Line } : judged, design);
    }

    private PileDesign Unchanged(int revision)
    {
        if (!_unchanged.TryGetValue(revision, out PileDesign? design)) _unchanged[revision] = design = PileDesign.Unchanged(revision);
        return design;
    }

    private PileDesign DesignOf(PileThroughRevisions pile, PileVersion then)
    {
        DesignChangeLine? change = DesignDifference.Line(then.Pile, pile.TakenOutBy is null ? pile.Last.Pile : null, rotation);
        if (change is not { TouchesWork: true }) return Unchanged(then.Revision);
        int by = pile.TakenOutBy ?? pile.Last.Revision;
        string line = DesignChangeSentence.Of(change, then.Revision, by);
        DecidedDesignChange? decided = log.DesignChanges.GetValueOrDefault(pile.Number);
        bool same = decided?.Line == line;
        return new PileDesign(then.Revision, by, change, line)
        {
            Answer = same ? decided!.Answer : null,
            AnsweredIn = same ? decided!.Sequence : null,
        };
    }
}

/// <summary>How the design of a pile stands to what was built.</summary>
/// <param name="JudgedBy">The revision in force when it was built; for a pile not built, the one that planned it last. 0 for an additional pile.</param>
/// <param name="ChangedBy">The revision that changed it since; null where none did.</param>
/// <param name="Change">What changed since; null where nothing that touches the work did.</param>
/// <param name="Line">The same as a line that a decision covers.</param>
public sealed record PileDesign(int JudgedBy, int? ChangedBy, DesignChangeLine? Change, string? Line)
{
    /// <summary>What was decided about the change; null while nothing is.</summary>
    public DesignChangeAnswer? Answer { get; init; }

    /// <summary>The record that decided it.</summary>
    public long? AnsweredIn { get; init; }

    /// <summary>True while the change waits for a decision.</summary>
    public bool IsOpen => Change is not null && Answer is null;

    internal static PileDesign Unrevised { get; } = Unchanged(0);

    internal static PileDesign Unchanged(int revision) => new(revision, null, null, null);
}
