using NodaTime;
using SiteProgress.Core.Checks;
using SiteProgress.Core.Logs;
using SiteProgress.Core.Matching;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;

namespace SiteProgress.Core.Derivation;

/// <summary>
/// The one place that answers which log is an installation's and what that log is read against. A recorded log that was joined
/// counts; a log attached to a pile is evidence and is never judged by.
/// </summary>
public sealed class StandingLogs
{
    private readonly SiteHistory _history;
    private readonly SiteSettings _settings;
    private readonly CalibrationsInForce _calibrations;
    private readonly Dictionary<(string Zone, string Barge), LogConstants> _constants = [];

    /// <summary>Reads against the settings and calibrations of a history.</summary>
    /// <exception cref="InvalidOperationException">The site has no settings yet.</exception>
    public StandingLogs(SiteHistory history)
    {
        ArgumentNullException.ThrowIfNull(history);
        _history = history;
        _settings = history.Settings ?? throw new InvalidOperationException("The site has no settings yet.");
        _calibrations = new CalibrationsInForce(history);
    }

    /// <summary>What the log of a part tells; null where none was recorded for its installation.</summary>
    public LogFigures? Of(PlannedPile pile, Zone zone, StandingPart part, double cutOffLevelMetres)
    {
        ArgumentNullException.ThrowIfNull(part);
        if (part.Installation.Log is not { } log) return null;
        LogSetting setting = SettingOf(pile, zone, part.Installation.Recorded.Barge, part.Installation.Recorded.Casing, log.FirstSample, cutOffLevelMetres);
        return setting.Context is { } context ? _history.Readings.Of(log.Sha256, context) : LogFigures.Refused(setting.Why!);
    }

    /// <summary>What a log of a pile is read against.</summary>
    /// <param name="pile">The planned pile.</param>
    /// <param name="zone">Its zone.</param>
    /// <param name="barge">Barge that worked.</param>
    /// <param name="casing">Its casing; null where the record names none.</param>
    /// <param name="firstSample">Time of the first sample: the calibration of that moment holds.</param>
    /// <param name="cutOffLevelMetres">Level up to which it is judged, metres.</param>
    public LogSetting SettingOf(PlannedPile pile, Zone zone, string barge, int? casing, Instant firstSample, double cutOffLevelMetres)
    {
        ArgumentNullException.ThrowIfNull(pile);
        ArgumentNullException.ThrowIfNull(zone);
        Barge? known = _settings.FindBarge(barge);
        Casing? used = known?.Casings.FirstOrDefault(one => one.Number == casing) ?? (casing is null && known?.Casings is [{ } only] ? only : null);
        if (known is null || used is null)
            return new LogSetting(null, $"The settings of the site hold no casing {(casing is { } number ? FormattableString.Invariant($"{number} ") : "")}of {barge}, whose inner diameter is needed.", null);
        BatchRow<Calibration>? calibrated = _calibrations.At(known.Name, used.Number, firstSample);
        LogContext context = new(
            calibrated?.Value.InnerAreaSquareMetres is { } area and > 0 ? Math.Sqrt(4 / Math.PI * area) : used.InnerDiameterMetres,
            // A gauge that measures from the top shows the length of the casing when it is empty; one of the height shows its zero.
            calibrated?.Value.GaugeZeroMetres is { } length and > 0 ? length : null,
            _settings.FindSandSource(zone.SandSource)?.VolumeChangeFactor,
            pile.DiameterMetres,
            cutOffLevelMetres,
            pile.TipLevelMetres,
            zone.StopPenetrationRateMetresPerMinute,
            ConstantsOf(zone, known),
            calibrated?.Value.GaugeZeroMetres ?? 0);
        return new LogSetting(context, null, calibrated?.Sequence);
    }

    /// <summary>The numbers by which logs of a barge in a zone are read: those of the site, over them those of the zone, over them those of the barge.</summary>
    public LogConstants ConstantsOf(Zone zone, Barge barge)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(barge);
        if (!_constants.TryGetValue((zone.Code, barge.Name), out LogConstants? constants))
            _constants[(zone.Code, barge.Name)] = constants = LogConstants.Standard.With(_settings.LogConstants).With(zone.LogConstants).With(barge.LogConstants);
        return constants;
    }
}

/// <summary>What a log is read against, or why it cannot be read.</summary>
/// <param name="Context">What it is read against.</param>
/// <param name="Why">Why it cannot be read; null when it can.</param>
/// <param name="Calibration">Record of the calibration that holds; null where none does.</param>
public sealed record LogSetting(LogContext? Context, string? Why, long? Calibration);
