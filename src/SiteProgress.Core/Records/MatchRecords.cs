namespace SiteProgress.Core.Records;

/// <summary>Gathers decisions on matches; a part of <see cref="HistoryBuilder"/>.</summary>
internal sealed class MatchRecords
{
    public List<MatchDecision> All { get; private init; } = [];

    public MatchRecords Copy() => new() { All = [.. All] };

    /// <summary>Takes a record of this part.</summary>
    /// <returns>False where the record belongs to another part.</returns>
    public bool Add(RecordEntry record, RecordBody body)
    {
        switch (body)
        {
            case MatchesDecidedBody one: All.Add(new MatchDecision(record.Sequence, record.RecordedAt, record.RecordedBy, one, null)); return true;
            case MatchDecisionWithdrawnBody one: Withdraw(record, one); return true;
            default: return false;
        }
    }

    private void Withdraw(RecordEntry record, MatchDecisionWithdrawnBody body)
    {
        int place = All.FindIndex(one => one.Sequence == body.Decision && one.Withdrawal is null);
        if (place >= 0) All[place] = All[place] with { Withdrawal = new Withdrawal(record.Sequence, record.RecordedAt, record.RecordedBy, body.Reason) };
    }
}
