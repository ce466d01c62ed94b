using NodaTime;
using SiteProgress.Core.Levels;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Core.Derivation;

/// <summary>
/// What the records beside an installation add to it: the correction of its clock, the calibration it was made with, and the
/// levels that follow from its depths. What was recorded stays as it is; this is what it is taken for.
/// </summary>
internal sealed class RecordedCircumstances
{
    private readonly SiteHistory _history;
    private readonly CalibrationsInForce _calibrations;
    private readonly Lazy<WaterLevelSeries?> _water;
    private readonly Dictionary<long, Kept<ClockCorrectedBody>> _clocks = [];
    private readonly Dictionary<long, DerivedLevels> _levels = [];

    public RecordedCircumstances(SiteHistory history)
    {
        _history = history;
        _calibrations = new CalibrationsInForce(history);
        _water = new Lazy<WaterLevelSeries?>(() => SiteWater.Of(history));
    }

    /// <summary>The correction of the clock of an installation; null where its clock was right.</summary>
    public Kept<ClockCorrectedBody>? ClockOf(long sequence) => _clocks.GetValueOrDefault(sequence);

    /// <summary>The levels derived for an installation; null where it holds none or states them itself.</summary>
    public DerivedLevels? LevelsOf(long sequence) => _levels.GetValueOrDefault(sequence);

    /// <summary>The installations with their times put right.</summary>
    public BatchRow<Installation>[] WithClocksRight(BatchRow<Installation>[] rows)
    {
        if (_history.ClockCorrections.Count == 0) return rows;
        Dictionary<long, string?> senders = _history.Batches.ToDictionary(batch => batch.Sequence, batch => batch.Body.Sender);
        return Array.ConvertAll(rows, row =>
        {
            Installation recorded = row.Value;
            if ((recorded.Start ?? recorded.EndOfPenetration ?? recorded.End) is not { } moment) return row;
            Kept<ClockCorrectedBody>? found = _history.ClockCorrections.LastOrDefault(one => Holds(one.Body.Correction, recorded.Barge, senders[row.Batch], moment));
            if (found is not { Body.Correction.AheadSeconds: not 0 and var ahead }) return row;
            _clocks[row.Sequence] = found;
            Duration back = Duration.FromSeconds(ahead);
            return row with { Value = recorded with { Start = recorded.Start - back, EndOfPenetration = recorded.EndOfPenetration - back, End = recorded.End - back } };
        });
    }

    /// <summary>The logs with their times put right.</summary>
    public BatchRow<LoggedPile>[] WithClocksRight(BatchRow<LoggedPile>[] rows)
    {
        if (_history.ClockCorrections.Count == 0) return rows;
        Dictionary<long, string?> senders = _history.Batches.ToDictionary(batch => batch.Sequence, batch => batch.Body.Sender);
        return Array.ConvertAll(rows, row =>
        {
            Kept<ClockCorrectedBody>? found = _history.ClockCorrections.LastOrDefault(one => Holds(one.Body.Correction, row.Value.Barge, senders[row.Batch], row.Value.FirstSample));
            if (found is not { Body.Correction.AheadSeconds: not 0 and var ahead }) return row;
            _clocks[row.Sequence] = found;
            Duration back = Duration.FromSeconds(ahead);
            return row with { Value = row.Value with { FirstSample = row.Value.FirstSample - back, LastSample = row.Value.LastSample - back } };
        });
    }

    /// <summary>The installation with its calibration and its derived levels.</summary>
    public LocatedInstallation Complete(LocatedInstallation located)
    {
        Installation recorded = located.Recorded;
        Instant? moment = recorded.EndOfPenetration ?? recorded.Start ?? recorded.End;
        BatchRow<Calibration>? casing = moment is { } at && recorded.Casing is { } number ? _calibrations.At(recorded.Barge, number, at) : null;
        LocatedInstallation complete = casing is null ? located : located with { Calibration = casing.Sequence };
        if (recorded.Depths is null) return complete;
        BatchRow<Calibration>? barge = moment is { } then ? _calibrations.At(recorded.Barge, null, then) : null;
        DerivedLevels levels = DepthsToLevels.Of(
            recorded, new LevelContext(_water.Value, barge?.Value, casing?.Value, _history.Settings!.HeightModel, located.Position))!;
        _levels[located.Sequence] = levels;

        // A level that the record states itself stands; a depth beside it is only shown.
        return complete with
        {
            Recorded = recorded with { TipLevelMetres = recorded.TipLevelMetres ?? levels.Tip?.LevelMetres, TopLevelMetres = recorded.TopLevelMetres ?? levels.Top?.LevelMetres },
            WhyNoTipLevel = levels.Tip?.Missing,
            WhyNoTopLevel = levels.Top?.Missing,
        };
    }

    private static bool Holds(ClockCorrection correction, string barge, string? sender, Instant moment)
        => string.Equals(correction.Barge, barge, StringComparison.OrdinalIgnoreCase)
            && (correction.Sender is null || correction.Sender == sender)
            && correction.From <= moment && moment < correction.Until;
}
