using NodaTime;

namespace SiteProgress.Core.Piles;

/// <summary>Readings of one gauge over one day (UTC), as they came in.</summary>
/// <param name="Gauge">Name of the gauge.</param>
/// <param name="From">The moment from which the readings count their seconds.</param>
/// <param name="Readings">Each reading as seconds after <paramref name="From"/> and metres as read, in order of time.</param>
public sealed record WaterLevels(string Gauge, Instant From, IReadOnlyList<double[]> Readings);

/// <summary>How the readings of a gauge become water levels at the site, from a moment on. Later revisions replace earlier ones.</summary>
/// <param name="Name">Name of the gauge.</param>
/// <param name="ValidFrom">From when it holds.</param>
/// <param name="ZeroLevelMetres">Level of the gauge's zero on the site's datum, metres; 0 where readings are levels already.</param>
/// <param name="OffsetToSiteMetres">What is added to the level at the gauge to get the level at the site, metres.</param>
/// <param name="LargestGapMinutes">Longest span between two readings over which the level may be interpolated, minutes.</param>
/// <param name="Evidence">Where zero and offset come from.</param>
public sealed record Gauge(
    string Name, Instant ValidFrom, double ZeroLevelMetres, double OffsetToSiteMetres, double LargestGapMinutes, string Evidence);

/// <summary>A water level read independently of a gauge, by staff or level, to check it.</summary>
/// <param name="Gauge">Name of the gauge that is checked.</param>
/// <param name="At">When.</param>
/// <param name="LevelMetres">Water level read, metres on the site's datum.</param>
/// <param name="Method">How it was read.</param>
/// <param name="UncertaintyMetres">Uncertainty of the reading (95 %), metres.</param>
public sealed record GaugeCheck(string Gauge, Instant At, double LevelMetres, string Method, double UncertaintyMetres);
