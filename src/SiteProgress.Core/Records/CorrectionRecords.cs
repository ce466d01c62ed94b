using NodaTime;

namespace SiteProgress.Core.Records;

/// <summary>Gathers corrections of positions; a part of <see cref="HistoryBuilder"/>.</summary>
internal sealed class CorrectionRecords
{
    public List<PositionCorrection> All { get; private init; } = [];

    public CorrectionRecords Copy() => new() { All = [.. All] };

    /// <summary>Takes a record of this part.</summary>
    /// <returns>False where the record belongs to another part.</returns>
    public bool Add(RecordEntry record, RecordBody body)
    {
        switch (body)
        {
            case CorrectionProposedBody one: All.Add(new PositionCorrection(record.Sequence, record.RecordedAt, record.RecordedBy, one, null, null)); return true;
            case CorrectionDecidedBody one: Change(one.Correction, found => found.Decision is null && found.Withdrawal is null, found => found with
            {
                Decision = new CorrectionDecision(record.Sequence, record.RecordedAt, record.RecordedBy, one.Adopted, one.Reason),
            }); return true;
            case CorrectionWithdrawnBody one: Change(one.Correction, found => found.Withdrawal is null, found => found with
            {
                Withdrawal = new Withdrawal(record.Sequence, record.RecordedAt, record.RecordedBy, one.Reason),
            }); return true;
            default: return false;
        }
    }

    // The first decision and the first withdrawal stand, as with batches.
    private void Change(long sequence, Predicate<PositionCorrection> which, Func<PositionCorrection, PositionCorrection> change)
    {
        int place = All.FindIndex(one => one.Sequence == sequence && which(one));
        if (place >= 0) All[place] = change(All[place]);
    }
}

/// <summary>A correction of recorded positions, and what became of it.</summary>
/// <param name="Sequence">Sequence of the proposal.</param>
/// <param name="ProposedAt">When.</param>
/// <param name="ProposedBy">By whom.</param>
/// <param name="Body">What is to be taken off which records, and why.</param>
/// <param name="Decision">What was decided; null while it waits.</param>
/// <param name="Withdrawal">How it was withdrawn; null while it stands.</param>
public sealed record PositionCorrection(
    long Sequence, Instant ProposedAt, string ProposedBy, CorrectionProposedBody Body, CorrectionDecision? Decision, Withdrawal? Withdrawal)
{
    /// <summary>True while positions are taken as corrected.</summary>
    public bool IsInForce => Decision is { Adopted: true } && Withdrawal is null;
}

/// <summary>A decision on a correction.</summary>
/// <param name="Sequence">Sequence of the record.</param>
/// <param name="At">When.</param>
/// <param name="By">By whom.</param>
/// <param name="Adopted">True when it was adopted.</param>
/// <param name="Reason">Why.</param>
public sealed record CorrectionDecision(long Sequence, Instant At, string By, bool Adopted, string Reason);
