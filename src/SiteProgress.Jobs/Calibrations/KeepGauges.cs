using NodaTime;
using SiteProgress.Core.Piles;
using SiteProgress.Core.Records;
using SiteProgress.Jobs.Access;
using SiteProgress.Jobs.Recording;

namespace SiteProgress.Jobs.Calibrations;

/// <summary>Says how the readings of a gauge become levels at the site, and keeps its checks; each is a record.</summary>
public sealed class KeepGauges(SiteRecorder recorder)
{
    private const int MostCharacters = 500;

    /// <summary>Describes a gauge from a moment on. The gauge described last is the one by which levels are derived.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="gauge">Name of the gauge.</param>
    /// <param name="validFrom">From when, site time.</param>
    /// <param name="zeroMetres">Level of its zero, metres on the site's datum.</param>
    /// <param name="offsetMetres">Added to get the level at the site, metres.</param>
    /// <param name="gapMinutes">Longest span bridged, minutes.</param>
    /// <param name="evidence">Where zero and offset come from.</param>
    /// <param name="reason">Why it is described now.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>Null, or why it was not recorded.</returns>
    [Needs(Right.KeepSurvey)]
    public async Task<string?> DescribeAsync(
        Permit permit, string gauge, LocalDateTime? validFrom, double zeroMetres, double offsetMetres, double gapMinutes, string evidence, string reason, CancellationToken cancellation)
    {
        permit.Demand(Right.KeepSurvey);
        if (Unsaid(gauge, evidence, reason)) return $"Name of the gauge, evidence and reason must be said, in at most {MostCharacters} characters each.";
        if (validFrom is not { } from) return "Say from when the description holds.";
        if (!double.IsFinite(zeroMetres) || Math.Abs(zeroMetres) > 500 || !double.IsFinite(offsetMetres) || Math.Abs(offsetMetres) > 20) return "Zero and offset are metres: the zero within 500 m, the offset within 20 m.";
        if (!double.IsFinite(gapMinutes) || gapMinutes is <= 0 or > 24 * 60) return "The largest gap is minutes, above 0 and at most a day.";
        await recorder.AppendAsync(
            permit,
            Right.KeepSurvey,
            history => [new GaugeRevisedBody(new Gauge(gauge.Trim(), At(history, from), zeroMetres, offsetMetres, gapMinutes, evidence.Trim()), reason.Trim())],
            cancellation);
        return null;
    }

    /// <summary>Keeps a check of a gauge.</summary>
    /// <param name="permit">Proof of access.</param>
    /// <param name="gauge">Name of the gauge.</param>
    /// <param name="at">When the water was read, site time.</param>
    /// <param name="levelMetres">Water level read, metres on the site's datum.</param>
    /// <param name="method">How it was read.</param>
    /// <param name="uncertaintyMetres">Uncertainty (95 %), metres.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>Null, or why it was not recorded.</returns>
    [Needs(Right.KeepSurvey)]
    public async Task<string?> CheckAsync(
        Permit permit, string gauge, LocalDateTime? at, double levelMetres, string method, double uncertaintyMetres, CancellationToken cancellation)
    {
        permit.Demand(Right.KeepSurvey);
        if (Unsaid(gauge, method)) return $"Name of the gauge and method must be said, in at most {MostCharacters} characters each.";
        if (at is not { } moment) return "Say when the water was read.";
        if (!double.IsFinite(levelMetres) || Math.Abs(levelMetres) > 500) return "The level is metres on the site's datum, within 500 m.";
        if (!double.IsFinite(uncertaintyMetres) || uncertaintyMetres is < 0.0001 or > 10) return "The uncertainty is metres, above 0; zero is no statement.";
        await recorder.AppendAsync(
            permit,
            Right.KeepSurvey,
            history => [new GaugeCheckedBody(new GaugeCheck(gauge.Trim(), At(history, moment), levelMetres, method.Trim(), uncertaintyMetres))],
            cancellation);
        return null;
    }

    private static bool Unsaid(params string[] texts) => texts.Any(text => string.IsNullOrWhiteSpace(text) || text.Trim().Length > MostCharacters);

    private static Instant At(SiteHistory history, LocalDateTime local) => DateTimeZoneProviders.Tzdb[history.Settings!.TimeZone].AtLeniently(local).ToInstant();
}
