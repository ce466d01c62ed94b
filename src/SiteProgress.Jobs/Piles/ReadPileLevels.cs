using NodaTime;
using SiteProgress.Core.Derivation;
using SiteProgress.Core.Levels;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Piles;

/// <summary>Where the levels of a pile's installations come from: stated, or derived from depths by which water level, freeboard and calibration.</summary>
public sealed class ReadPileLevels(SiteHistories histories)
{
    /// <summary>Reads them, in order of the records; empty where nothing on record concerns the number.</summary>
    [Needs(Right.See)]
    public async Task<IReadOnlyList<LevelsOfAttempt>> RunAsync(Permit permit, string number, CancellationToken cancellation)
    {
        permit.Demand(Right.See);
        DerivedSite site = await histories.ReadDerivedAsync(permit.Site, cancellation);
        CalibrationsInForce inForce = new(site.History);
        return [.. site.Installations.Where(one => Concerns(one, number)).OrderBy(one => one.Located.Sequence).Select(one => Of(one, inForce))];
    }

    private static bool Concerns(DerivedInstallation one, string number)
        => Same(one.Match.Adopted, number) || Same(one.Located.Recorded.PileNumber.Trim(), number) || (one.Match.Adopted is null && Same(one.Match.Nearest, number));

    private static bool Same(string? one, string other) => string.Equals(one, other, StringComparison.OrdinalIgnoreCase);

    private static LevelsOfAttempt Of(DerivedInstallation one, CalibrationsInForce inForce)
    {
        Installation recorded = one.Located.Recorded;
        Instant? moment = recorded.EndOfPenetration ?? recorded.Start ?? recorded.End;
        return new LevelsOfAttempt(
            one.Located.Sequence, recorded, one.Levels,
            moment is { } at && recorded.Casing is { } casing ? InUse(inForce, inForce.At(recorded.Barge, casing, at)) : null,
            moment is { } then ? InUse(inForce, inForce.At(recorded.Barge, null, then)) : null,
            one.Clock is { } clock ? (clock.Sequence, clock.Body.Correction.AheadSeconds) : null);
    }

    private static CalibrationInUse? InUse(CalibrationsInForce inForce, BatchRow<Calibration>? row)
        => row is null ? null : new CalibrationInUse(row.Sequence, row.Batch, row.Value, inForce.Until(row));
}

/// <summary>What the levels of one installation rest on.</summary>
/// <param name="Sequence">Its record.</param>
/// <param name="Taken">What the record is taken for: levels derived from depths are filled in, times are put right.</param>
/// <param name="Derived">Levels derived from recorded depths; null where the record holds no depths.</param>
/// <param name="CasingCalibration">Calibration of its casing in force when it was made.</param>
/// <param name="BargeCalibration">Calibration of its barge in force when it was made.</param>
/// <param name="Clock">Record of the correction of its clock, and how far the clock was ahead, seconds; null where it was right.</param>
public sealed record LevelsOfAttempt(
    long Sequence, Installation Taken, DerivedLevels? Derived, CalibrationInUse? CasingCalibration, CalibrationInUse? BargeCalibration, (long Record, double AheadSeconds)? Clock);

/// <summary>A calibration that was in force.</summary>
/// <param name="Sequence">Its record.</param>
/// <param name="Batch">Its batch.</param>
/// <param name="Value">What was measured.</param>
/// <param name="Until">From when another one takes its place; null while it is the last.</param>
public sealed record CalibrationInUse(long Sequence, long Batch, Calibration Value, Instant? Until);
