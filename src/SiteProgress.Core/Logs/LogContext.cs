namespace SiteProgress.Core.Logs;

/// <summary>What a log is read against. What is not known is null, and the figures that need it are then absent.</summary>
/// <param name="CasingInnerDiameterMetres">Inner diameter of the casing, metres.</param>
/// <param name="CasingLengthMetres">Length of the casing from tip to top, metres; needed where the sand is measured from the top.</param>
/// <param name="VolumeChangeFactor">C: volume in the pile divided by loose volume in the casing.</param>
/// <param name="DesignDiameterMetres">Design diameter, metres.</param>
/// <param name="CutOffLevelMetres">Level up to which the pile is judged, metres: the design top.</param>
/// <param name="DesignTipLevelMetres">Design tip level, metres.</param>
/// <param name="StopRateMetresPerMinute">Stop criterion of the zone, metres a minute.</param>
/// <param name="Constants">The numbers by which it is read.</param>
/// <param name="GaugeZeroMetres">What a gauge of the height above the tip shows in the empty casing, metres.</param>
public sealed record LogContext(
    double CasingInnerDiameterMetres,
    double? CasingLengthMetres,
    double? VolumeChangeFactor,
    double? DesignDiameterMetres,
    double? CutOffLevelMetres,
    double? DesignTipLevelMetres,
    double? StopRateMetresPerMinute,
    LogConstants Constants,
    double GaugeZeroMetres = 0)
{
    /// <summary>Inner area of the casing, square metres.</summary>
    internal double CasingArea => Math.PI / 4 * CasingInnerDiameterMetres * CasingInnerDiameterMetres;
}
