namespace SiteProgress.Core.Records;

/// <summary>Gathers offers of the record and their answers; a part of <see cref="HistoryBuilder"/>.</summary>
internal sealed class HandOverRecords
{
    public List<HandOverOffer> All { get; private init; } = [];

    public HandOverRecords Copy() => new() { All = [.. All] };

    /// <summary>Takes a record of this part.</summary>
    /// <returns>False where the record belongs to another part.</returns>
    public bool Add(RecordEntry record, RecordBody body)
    {
        switch (body)
        {
            case HandOverOfferedBody one: All.Add(new HandOverOffer(new(record.Sequence, record.RecordedAt, record.RecordedBy, one), null)); return true;
            case HandOverAnsweredBody one: Answer(new(record.Sequence, record.RecordedAt, record.RecordedBy, one)); return true;
            default: return false;
        }
    }

    private void Answer(Kept<HandOverAnsweredBody> answer)
    {
        // The first answer stands.
        int place = All.FindIndex(one => one.Offer.Body.Number == answer.Body.Offer && one.Answer is null);
        if (place >= 0) All[place] = All[place] with { Answer = answer };
    }
}
