using SiteProgress.Core.Ground;
using SiteProgress.Core.Piles;

namespace SiteProgress.Core.Records;

/// <summary>Gathers calibrations, water levels, soundings, clocks and the keys of senders; a part of <see cref="HistoryBuilder"/>.</summary>
internal sealed class SurveyRecords
{
    public List<BatchRow<Calibration>> Calibrations { get; private init; } = [];

    public List<BatchRow<WaterLevels>> WaterLevels { get; private init; } = [];

    public List<BatchRow<SeabedSoundings>> Soundings { get; private init; } = [];

    public List<Kept<GaugeRevisedBody>> Gauges { get; private init; } = [];

    public List<Kept<GaugeCheckedBody>> GaugeChecks { get; private init; } = [];

    public List<Kept<ClockCorrectedBody>> Clocks { get; private init; } = [];

    public Dictionary<Guid, SenderKey> Keys { get; private init; } = [];

    public SurveyRecords Copy() => new()
    {
        Calibrations = [.. Calibrations],
        WaterLevels = [.. WaterLevels],
        Soundings = [.. Soundings],
        Gauges = [.. Gauges],
        GaugeChecks = [.. GaugeChecks],
        Clocks = [.. Clocks],
        Keys = new Dictionary<Guid, SenderKey>(Keys),
    };

    /// <summary>Takes a record of this part.</summary>
    /// <returns>False where the record belongs to another part.</returns>
    public bool Add(RecordEntry record, RecordBody body)
    {
        switch (body)
        {
            case CalibratedBody one: Calibrations.Add(HistoryBuilder.Row(record, one.Line, one.Calibration)); return true;
            case WaterLevelsBody one: WaterLevels.Add(HistoryBuilder.Row(record, one.Line, one.Levels)); return true;
            case SeabedSurveyedBody one: Soundings.Add(HistoryBuilder.Row(record, one.Line, one.Survey)); return true;
            case GaugeRevisedBody one: Gauges.Add(Of(record, one)); return true;
            case GaugeCheckedBody one: GaugeChecks.Add(Of(record, one)); return true;
            case ClockCorrectedBody one: Clocks.Add(Of(record, one)); return true;
            case SenderKeyMadeBody one: Keys[one.Key] = new SenderKey(record.Sequence, record.RecordedAt, record.RecordedBy, one, null); return true;
            case SenderKeyWithdrawnBody one: Withdraw(record, one); return true;
            default: return false;
        }
    }

    private void Withdraw(RecordEntry record, SenderKeyWithdrawnBody body)
    {
        // The first withdrawal stands, as with batches.
        if (Keys.TryGetValue(body.Key, out SenderKey? key) && key.Withdrawal is null)
            Keys[body.Key] = key with { Withdrawal = new Withdrawal(record.Sequence, record.RecordedAt, record.RecordedBy, body.Reason) };
    }

    private static Kept<T> Of<T>(RecordEntry record, T body) => new(record.Sequence, record.RecordedAt, record.RecordedBy, body);
}

/// <summary>A key of a sender.</summary>
/// <param name="Sequence">Sequence of the record that made it.</param>
/// <param name="MadeAt">When.</param>
/// <param name="MadeBy">By whom.</param>
/// <param name="Body">Name, sender and barges.</param>
/// <param name="Withdrawal">How it was withdrawn, or null while it works.</param>
public sealed record SenderKey(long Sequence, NodaTime.Instant MadeAt, string MadeBy, SenderKeyMadeBody Body, Withdrawal? Withdrawal)
{
    /// <summary>How a record that came by a key says who recorded it.</summary>
    public static string RecorderName(Guid key) => $"sender {key:D}";

    /// <summary>The key in the name of a recorder; null where a person or the operator recorded.</summary>
    public static Guid? KeyIn(string recordedBy)
    {
        ArgumentNullException.ThrowIfNull(recordedBy);
        return recordedBy.StartsWith("sender ", StringComparison.Ordinal) && Guid.TryParseExact(recordedBy.AsSpan(7), "D", out Guid key) ? key : null;
    }
}
