using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Core.Treatment;

/// <summary>The records of treatment sorted by what they speak of, before anything is judged.</summary>
public sealed class TreatmentLog
{
    private readonly Dictionary<string, PileAcceptance> _acceptances = new(StringComparer.OrdinalIgnoreCase);

    private readonly Dictionary<string, DecidedDesignChange> _designChanges = new(StringComparer.OrdinalIgnoreCase);
    private readonly List<DesignChangeProposal> _designProposals = [];

    private TreatmentLog()
    {
    }

    /// <summary>Records of each non-conformance by number, its raising first.</summary>
    internal SortedDictionary<int, List<TreatmentRecord>> NonConformances { get; } = [];

    /// <summary>Records of each lot by number, its submission first.</summary>
    internal SortedDictionary<int, List<TreatmentRecord>> Lots { get; } = [];

    /// <summary>Records of each hold point by number, its setting first.</summary>
    internal SortedDictionary<int, List<TreatmentRecord>> HoldPoints { get; } = [];

    /// <summary>The acceptance last given and not withdrawn, by pile.</summary>
    internal IReadOnlyDictionary<string, PileAcceptance> Acceptances => _acceptances;

    /// <summary>Additional piles whose disposition was approved, with the record that approved them.</summary>
    public IReadOnlyList<(AdditionalPile Pile, long Sequence)> Additional { get; private set; } = [];

    /// <summary>Proposals for piles whose design was changed after they were built, in order.</summary>
    public IReadOnlyList<DesignChangeProposal> DesignProposals => _designProposals;

    /// <summary>What was decided last about the changed design of a pile, by pile.</summary>
    internal IReadOnlyDictionary<string, DecidedDesignChange> DesignChanges => _designChanges;

    /// <summary>Sorts records.</summary>
    /// <param name="records">Records of treatment, in order.</param>
    public static TreatmentLog Of(IReadOnlyList<TreatmentRecord> records)
    {
        ArgumentNullException.ThrowIfNull(records);
        TreatmentLog log = new();
        foreach (TreatmentRecord record in records) log.Add(record);
        log.Additional = [.. log.NonConformances.Values.SelectMany(Approved)];
        return log;
    }

    private void Add(TreatmentRecord record)
    {
        switch (record.Body)
        {
            case NonConformanceRaisedBody body: NonConformances[body.Number] = [record]; break;
            case DispositionProposedBody body: NonConformances[body.NonConformance].Add(record); break;
            case DispositionDecidedBody body:
                NonConformances[body.NonConformance].Add(record);
                Accept(record, body.Accepted ?? [], null, body.Comment);
                break;
            case CommentMadeBody body: NonConformances[body.NonConformance].Add(record); break;
            case DueDateSetBody body: NonConformances[body.NonConformance].Add(record); break;
            case EvidenceGivenBody body: NonConformances[body.NonConformance].Add(record); break;
            case ClosureDecidedBody body: NonConformances[body.NonConformance].Add(record); break;
            case LotSubmittedBody body: Lots[body.Number] = [record]; break;
            case LotReturnedBody body: Lots[body.Lot].Add(record); break;
            case PilesAcceptedBody body:
                if (body.Lot is { } lot) Lots[lot].Add(record);
                Accept(record, body.Piles, body.Lot, body.Comment);
                break;
            case AcceptanceWithdrawnBody body: foreach (string pile in body.Piles) _acceptances.Remove(pile); break;
            case HoldPointSetBody body: HoldPoints[body.Number] = [record]; break;
            case HoldPointSignedBody body: HoldPoints[body.HoldPoint].Add(record); break;
            case HoldPointWithdrawnBody body: HoldPoints[body.HoldPoint].Add(record); break;
            case DesignChangeProposedBody body: _designProposals.Add(new DesignChangeProposal(record, body, null)); break;
            case DesignChangeDecidedBody body: Decide(record, body); break;
            case FileAttachedBody or AttachmentWithdrawnBody: break; // Evidence to look at; it changes no state (Attachment.Of).
            default: throw new InvalidDataException($"Record {record.Sequence} is of a kind that has no place in a treatment.");
        }
    }

    private void Decide(TreatmentRecord record, DesignChangeDecidedBody body)
    {
        // The first decision stands.
        int place = _designProposals.FindIndex(one => one.Record.Sequence == body.Proposal && one.Decision is null);
        if (place < 0) return;
        DesignChangeProposal decided = _designProposals[place] = _designProposals[place] with { Decision = record };
        if (!body.Approved) return;
        foreach (ChangedPile pile in decided.Body.Piles) _designChanges[pile.Number] = new DecidedDesignChange(decided.Body.Answer, pile.Line, record.Sequence);
    }

    private void Accept(TreatmentRecord record, IReadOnlyList<SignedPile> piles, int? lot, string comment)
    {
        foreach (SignedPile pile in piles)
        {
            _acceptances[pile.Number] = new PileAcceptance(record.Sequence, record.At, record.By, pile.Sheet, lot, comment);
        }
    }

    private static IEnumerable<(AdditionalPile Pile, long Sequence)> Approved(List<TreatmentRecord> records)
    {
        Dictionary<long, DispositionProposedBody> proposals = records
            .Where(record => record.Body is DispositionProposedBody)
            .ToDictionary(record => record.Sequence, record => (DispositionProposedBody)record.Body);
        return records
            .Where(record => record.Body is DispositionDecidedBody { Approved: true })
            .SelectMany(record => (proposals.GetValueOrDefault(((DispositionDecidedBody)record.Body).Proposal)?.Additional ?? [])
                .Select(pile => (pile, record.Sequence)));
    }
}
