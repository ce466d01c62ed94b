using NodaTime;
using SiteProgress.Core.Ground;
using SiteProgress.Core.Logs;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Records;

/// <summary>
/// What the records of one site say together: the settings in force, who holds which role, and the rows of every batch
/// that was not withdrawn. Nothing here is judged yet.
/// </summary>
public sealed class SiteHistory
{
    private readonly HistoryBuilder _built;

    internal SiteHistory(HistoryBuilder built, LogReadings readings) => (_built, Readings) = (built, readings);

    /// <summary>A site before its first record.</summary>
    public static SiteHistory Empty { get; } = new(new HistoryBuilder(), LogReadings.None);

    /// <summary>What the recorded logs tell, read when it is asked for.</summary>
    public LogReadings Readings { get; }

    /// <summary>Sequence of the last record.</summary>
    public long Sequence => _built.Sequence;

    /// <summary>Settings in force, or null before the site was opened.</summary>
    public SiteSettings? Settings => _built.SettingsPart.InForce;

    /// <summary>Sequence of the record by which they came into force; 0 before the site was opened.</summary>
    public long SettingsSince => _built.SettingsPart.Since;

    /// <summary>Settings that were proposed because they touch the contract, in order.</summary>
    public IReadOnlyList<SettingsProposal> SettingsProposals => _built.SettingsPart.Proposals;

    /// <summary>Site drawing in force: GeoJSON in site-grid metres.</summary>
    public string? Drawing => _built.SettingsPart.Drawing;

    /// <summary>Adopted adjustments by revision, in order.</summary>
    public IReadOnlyList<AdjustmentBody> Adjustments => _built.Adjustments;

    /// <summary>EPSG code of the projected CRS in force; null where there is none, as for a definition that was pasted in.</summary>
    public int? ProjectedCrsCode => Adjustments is [.., { EpsgCode: > 0 and var code }] ? code : null;

    /// <summary>Observations of control points in the order recorded, the withdrawn ones too.</summary>
    public IReadOnlyList<ControlPointObservation> Observations => _built.Observations;

    /// <summary>Projected systems put at the surveyor's disposal, in the order recorded.</summary>
    public IReadOnlyList<OfferedCrs> OfferedCrs => _built.OfferedCrs;

    /// <summary>Role words by account.</summary>
    public IReadOnlyDictionary<Guid, string> Roles => _built.Roles;

    /// <summary>All batches, the withdrawn ones too, in order.</summary>
    public IReadOnlyList<Batch> Batches => _built.Batches.Values.OrderBy(batch => batch.Sequence).ToArray();

    /// <summary>By batch, the withdrawn ones too: revision of the adjustment by which its positions are put on the site grid.</summary>
    public IReadOnlyDictionary<long, int> AdjustmentRevisions => _built.Batches.ToDictionary(batch => batch.Key, batch => batch.Value.Body.AdjustmentRevision);

    /// <summary>Rows of pile schedules that count.</summary>
    public IEnumerable<BatchRow<AsPlanned>> Planned => Counting(_built.Planned);

    /// <summary>Recorded installations that count.</summary>
    public IEnumerable<BatchRow<Installation>> Installed => Counting(_built.Installed);

    /// <summary>Every installation ever recorded, with whether it counts or its batch was withdrawn.</summary>
    public IEnumerable<(BatchRow<Installation> Row, bool Counts)> InstalledEver
        => _built.Installed.Select(row => (row, _built.Batches.TryGetValue(row.Batch, out Batch? batch) && batch.Withdrawal is null));

    /// <summary>Corrections of positions, in order; those refused or withdrawn too.</summary>
    public IReadOnlyList<PositionCorrection> Corrections => _built.Corrections.All;

    /// <summary>Decisions on matches, in order; the withdrawn ones too.</summary>
    public IReadOnlyList<MatchDecision> MatchDecisions => _built.Matches.All;

    /// <summary>Check measurements that count.</summary>
    public IEnumerable<BatchRow<CheckMeasurement>> Checked => Counting(_built.Checked);

    /// <summary>Standard penetration tests that count.</summary>
    public IEnumerable<BatchRow<PenetrationTest>> PenetrationTests => Counting(_built.PenetrationTests);

    /// <summary>Lines of sand accounts that count.</summary>
    public IEnumerable<BatchRow<SandDelivery>> Deliveries => Counting(_built.Deliveries);

    /// <summary>Recorded logs that count.</summary>
    public IEnumerable<BatchRow<LoggedPile>> Logged => Counting(_built.Logged);

    /// <summary>Every log ever recorded, with whether it counts or its batch was withdrawn.</summary>
    public IEnumerable<(BatchRow<LoggedPile> Row, bool Counts)> LoggedEver
        => _built.Logged.Select(row => (row, _built.Batches.TryGetValue(row.Batch, out Batch? batch) && batch.Withdrawal is null));

    /// <summary>Calibrations of barges and casings that count.</summary>
    public IEnumerable<BatchRow<Calibration>> Calibrations => Counting(_built.Survey.Calibrations);

    /// <summary>Readings of gauges that count.</summary>
    public IEnumerable<BatchRow<WaterLevels>> WaterLevels => Counting(_built.Survey.WaterLevels);

    /// <summary>Offers of the record to the owner with their answers, in order.</summary>
    public IReadOnlyList<HandOverOffer> HandOvers => _built.HandOvers.All;

    /// <summary>Soundings of seabed surveys that count.</summary>
    public IEnumerable<BatchRow<SeabedSoundings>> Soundings => Counting(_built.Survey.Soundings);

    /// <summary>Revisions of gauges, in order.</summary>
    public IReadOnlyList<Kept<GaugeRevisedBody>> Gauges => _built.Survey.Gauges;

    /// <summary>Checks of gauges, in order.</summary>
    public IReadOnlyList<Kept<GaugeCheckedBody>> GaugeChecks => _built.Survey.GaugeChecks;

    /// <summary>Corrections of clocks, in order.</summary>
    public IReadOnlyList<Kept<ClockCorrectedBody>> ClockCorrections => _built.Survey.Clocks;

    /// <summary>Keys of senders by their name, the withdrawn ones too.</summary>
    public IReadOnlyDictionary<Guid, SenderKey> SenderKeys => _built.Survey.Keys;

    /// <summary>Rows of diaries that count.</summary>
    public IEnumerable<BatchRow<DiaryEntry>> DiaryLines => Counting(_built.Progress.DiaryLines);

    /// <summary>Hours of barges kept on the page, in order.</summary>
    public IReadOnlyList<Kept<DiaryDayBody>> DiaryDays => _built.Progress.DiaryDays;

    /// <summary>Rows of schedules of progress that count.</summary>
    public IEnumerable<BatchRow<PlannedProgress>> PlannedProgress => Counting(_built.Progress.Planned);

    /// <summary>Plan of work in force; null before there is one.</summary>
    public Kept<WorkPlanBody>? WorkPlan => _built.Progress.Plan;

    /// <summary>Notes in force, by working day.</summary>
    public IReadOnlyDictionary<LocalDate, Kept<DayNotesBody>> DayNotes => _built.Progress.Notes;

    /// <summary>Daily reports: issues, signatures and disputes, in order.</summary>
    public IReadOnlyList<Kept<RecordBody>> DailyReports => _built.Progress.Reports;

    /// <summary>Records of the treatment of piles, in order.</summary>
    public IReadOnlyList<TreatmentRecord> Treatments => _built.Treatments;

    /// <summary>The history with further records at its end.</summary>
    /// <exception cref="InvalidDataException">A record does not follow the last one, or its body cannot be read.</exception>
    public SiteHistory With(IEnumerable<RecordEntry> records)
    {
        ArgumentNullException.ThrowIfNull(records);
        GrowingHistory growing = Grow();
        foreach (RecordEntry record in records) growing.Add(record);
        return growing.Grown();
    }

    /// <summary>A history that begins as this one and takes further records one by one, so that a large append is never whole in memory.</summary>
    public GrowingHistory Grow() => new(_built.Copy(), Readings);

    /// <summary>The same history with the samples of its logs to be had from these readings.</summary>
    public SiteHistory ReadBy(LogReadings readings) => new(_built, readings);

    /// <summary>The history as it would read had every batch been put on the site grid by one adjustment: a question, never a record.</summary>
    /// <param name="revision">The adjustment.</param>
    public SiteHistory AsIfPlacedBy(int revision)
    {
        HistoryBuilder next = _built.Copy();
        next.PlaceAllBy(revision);
        return new SiteHistory(next, Readings);
    }

    /// <summary>The history as it would read with other settings in force: a question, never a record.</summary>
    public SiteHistory AsIfSettings(SiteSettings settings)
    {
        HistoryBuilder next = _built.Copy();
        next.SettingsPart.Suppose(settings);
        return new SiteHistory(next, Readings);
    }

    private IEnumerable<BatchRow<T>> Counting<T>(List<BatchRow<T>> rows)
        => rows.Where(row => _built.Batches.TryGetValue(row.Batch, out Batch? batch) && batch.Withdrawal is null);
}

/// <summary>One row of a batch.</summary>
/// <typeparam name="T">What the row says.</typeparam>
/// <param name="Sequence">Sequence of its record.</param>
/// <param name="Batch">Sequence of its batch.</param>
/// <param name="Line">Line of the file.</param>
/// <param name="Value">What it says.</param>
public sealed record BatchRow<T>(long Sequence, long Batch, long Line, T Value);

/// <summary>Records that came in together.</summary>
/// <param name="Sequence">Sequence of the batch.</param>
/// <param name="RecordedAt">When.</param>
/// <param name="RecordedBy">By whom.</param>
/// <param name="Body">What it says of itself.</param>
/// <param name="Withdrawal">How it was withdrawn, or null while it counts.</param>
public sealed record Batch(long Sequence, Instant RecordedAt, string RecordedBy, BatchBody Body, Withdrawal? Withdrawal);

/// <summary>A batch was withdrawn.</summary>
/// <param name="Sequence">Sequence of the record that withdrew it.</param>
/// <param name="At">When.</param>
/// <param name="By">By whom.</param>
/// <param name="Reason">Why.</param>
public sealed record Withdrawal(long Sequence, Instant At, string By, string Reason);
