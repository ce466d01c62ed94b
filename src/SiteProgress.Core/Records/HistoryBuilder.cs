using SiteProgress.Core.Ground;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Records;

/// <summary>Gathers records into a <see cref="SiteHistory"/>; never seen outside it.</summary>
internal sealed class HistoryBuilder
{
    private const int MostNames = 100_000;

    // Names of barges, zones and set-ups stand in every row; remarks may be long. The shelf is of one append, never shared by two.
    private readonly RemarkShelf _remarks = new();
    private readonly Dictionary<string, string> _names = new(StringComparer.Ordinal);

    public long Sequence { get; private set; }

    public SettingsRecords SettingsPart { get; private init; } = new();

    public List<AdjustmentBody> Adjustments { get; private init; } = [];

    public List<ControlPointObservation> Observations { get; private init; } = [];

    public List<OfferedCrs> OfferedCrs { get; private init; } = [];

    public Dictionary<Guid, string> Roles { get; private init; } = [];

    public Dictionary<long, Batch> Batches { get; private init; } = [];

    public List<BatchRow<AsPlanned>> Planned { get; private init; } = [];

    public List<BatchRow<Installation>> Installed { get; private init; } = [];

    public List<BatchRow<CheckMeasurement>> Checked { get; private init; } = [];

    public List<BatchRow<PenetrationTest>> PenetrationTests { get; private init; } = [];

    public List<BatchRow<SandDelivery>> Deliveries { get; private init; } = [];

    public List<BatchRow<LoggedPile>> Logged { get; private init; } = [];

    public ProgressRecords Progress { get; private init; } = new();

    public SurveyRecords Survey { get; private init; } = new();

    public CorrectionRecords Corrections { get; private init; } = new();

    public MatchRecords Matches { get; private init; } = new();

    public HandOverRecords HandOvers { get; private init; } = new();

    public List<TreatmentRecord> Treatments { get; private init; } = [];

    public HistoryBuilder Copy() => new()
    {
        Sequence = Sequence,
        SettingsPart = SettingsPart.Copy(),
        Adjustments = [.. Adjustments],
        Observations = [.. Observations],
        OfferedCrs = [.. OfferedCrs],
        Roles = new Dictionary<Guid, string>(Roles),
        Batches = new Dictionary<long, Batch>(Batches),
        Planned = [.. Planned],
        Installed = [.. Installed],
        Checked = [.. Checked],
        PenetrationTests = [.. PenetrationTests],
        Deliveries = [.. Deliveries],
        Logged = [.. Logged],
        Progress = Progress.Copy(),
        Survey = Survey.Copy(),
        Corrections = Corrections.Copy(),
        Matches = Matches.Copy(),
        HandOvers = HandOvers.Copy(),
        Treatments = [.. Treatments],
    };

    public void Add(RecordEntry record)
    {
        if (record.Sequence != Sequence + 1)
        {
            throw new InvalidDataException($"Record {record.Sequence} does not follow record {Sequence}.");
        }

        Sequence = record.Sequence;
        switch (RecordJson.FromBytes(record.Kind, record.Body.Span))
        {
            case PileInstalledBody body: Installed.Add(Row(record, body.Line, Kept(body.Installation))); break;
            case PilePlannedBody body: Planned.Add(Row(record, body.Line, Kept(body.Pile))); break;
            case PositionCheckedBody body: Checked.Add(Row(record, body.Line, body.Measurement)); break;
            case PenetrationTestedBody body: PenetrationTests.Add(Row(record, body.Line, body.Test)); break;
            case SandDeliveredBody body: Deliveries.Add(Row(record, body.Line, body.Delivery)); break;
            case PileLoggedBody body: Logged.Add(Row(record, body.Line, body.Log)); break;
            case BatchBody body: Batches[record.Sequence] = new Batch(record.Sequence, record.RecordedAt, record.RecordedBy, body, null); break;
            case BatchWithdrawnBody body: Withdraw(record, body); break;
            case AdjustmentBody body: Adjustments.Add(body); break;
            case ControlPointObservedBody body: Observations.Add(new ControlPointObservation(record.Sequence, record.RecordedAt, record.RecordedBy, body, null)); break;
            case ObservationWithdrawnBody body: Withdraw(record, body); break;
            case ProjectedCrsOfferedBody body: OfferedCrs.Add(new OfferedCrs(record.Sequence, record.RecordedAt, record.RecordedBy, body)); break;
            case RoleGrantedBody body: Roles[body.Account] = body.Role; break;
            case RoleWithdrawnBody body: Roles.Remove(body.Account); break;
            case { } body when SettingsPart.Add(record, body) || Progress.Add(record, body) || Survey.Add(record, body) || Corrections.Add(record, body) || Matches.Add(record, body) || HandOvers.Add(record, body): break;
            case TreatmentBody body: Treatments.Add(new TreatmentRecord(record.Sequence, record.RecordedAt, record.RecordedBy, body)); break;
            default: throw new InvalidDataException($"Record {record.Sequence} is of a kind that has no place in a history.");
        }
    }

    /// <summary>Nothing more is added.</summary>
    public void Close() => _remarks.Close();

    private Installation Kept(Installation one) => one with
    {
        Barge = Name(one.Barge),
        SetUp = one.SetUp is { } setUp ? Name(setUp) : null,
        Remark = Kept(one.Remark),
    };

    private AsPlanned Kept(AsPlanned pile) => pile with { Zone = Name(pile.Zone), Remark = Kept(pile.Remark) };

    private Remark? Kept(Remark? remark) => remark is null ? null : _remarks.Keep(remark.Text);

    private string Name(string name)
    {
        if (_names.TryGetValue(name, out string? known)) return known;
        if (_names.Count < MostNames) _names.Add(name, name);
        return name;
    }

    private void Withdraw(RecordEntry record, BatchWithdrawnBody body)
    {
        // The first withdrawal stands: a second one of the same batch changes nothing.
        if (Batches.TryGetValue(body.WithdrawnBatch, out Batch? batch) && batch.Withdrawal is null)
        {
            Batches[body.WithdrawnBatch] = batch with
            {
                Withdrawal = new Withdrawal(record.Sequence, record.RecordedAt, record.RecordedBy, body.Reason),
            };
        }
    }

    private void Withdraw(RecordEntry record, ObservationWithdrawnBody body)
    {
        int place = Observations.FindIndex(one => one.Sequence == body.Observation && one.Withdrawal is null);
        if (place >= 0) Observations[place] = Observations[place] with { Withdrawal = new Withdrawal(record.Sequence, record.RecordedAt, record.RecordedBy, body.Reason) };
    }

    /// <summary>Every batch as if its positions had been put on the site grid by one adjustment.</summary>
    public void PlaceAllBy(int revision)
    {
        foreach ((long sequence, Batch batch) in Batches.ToArray()) Batches[sequence] = batch with { Body = batch.Body with { AdjustmentRevision = revision } };
    }

    internal static BatchRow<T> Row<T>(RecordEntry record, long line, T value)
        => new(record.Sequence, record.Batch ?? throw new InvalidDataException($"Record {record.Sequence} is a row of no batch."), line, value);
}
