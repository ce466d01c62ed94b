using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Records;

/// <summary>Gathers the settings of a site and what was proposed for them; a part of <see cref="HistoryBuilder"/>.</summary>
internal sealed class SettingsRecords
{
    public SiteSettings? InForce { get; private set; }

    public string? Drawing { get; private set; }

    /// <summary>Sequence of the record by which the settings in force came into force.</summary>
    public long Since { get; private set; }

    public List<SettingsProposal> Proposals { get; private init; } = [];

    public SettingsRecords Copy() => new() { InForce = InForce, Drawing = Drawing, Since = Since, Proposals = [.. Proposals] };

    /// <summary>Takes a record of this part.</summary>
    /// <returns>False where the record belongs to another part.</returns>
    public bool Add(RecordEntry record, RecordBody body)
    {
        switch (body)
        {
            case SettingsBody one: PutInForce(one.Settings, one.Drawing, record.Sequence); return true;
            case SettingsProposedBody one: Proposals.Add(new SettingsProposal(record.Sequence, record.RecordedAt, record.RecordedBy, one, null, null)); return true;
            case SettingsDecidedBody one: Decide(record, one); return true;
            default: return false;
        }
    }

    /// <summary>Other settings, as a question.</summary>
    public void Suppose(SiteSettings settings) => InForce = settings;

    private void Decide(RecordEntry record, SettingsDecidedBody body)
    {
        // The first decision stands, and a proposal that was overtaken has none.
        int place = Proposals.FindIndex(one => one.Sequence == body.Proposal && one.Waits);
        if (place < 0) return;
        Proposals[place] = Proposals[place] with { Decision = new Kept<SettingsDecidedBody>(record.Sequence, record.RecordedAt, record.RecordedBy, body) };
        if (body.Approved) PutInForce(Proposals[place].Body.Settings, null, record.Sequence);
    }

    private void PutInForce(SiteSettings settings, string? drawing, long sequence)
    {
        (InForce, Drawing, Since) = (settings, drawing ?? Drawing, sequence);
        for (int index = 0; index < Proposals.Count; index++)
        {
            if (Proposals[index].Waits) Proposals[index] = Proposals[index] with { Overtaken = sequence };
        }
    }
}
